// The fields of a board: moving between them, and typing in them. What that changes is for others to say.

/** @typedef {import("./typed.js").Typed} Typed */

/**
 * @typedef {object} Asked What the board hands on.
 * @property {(cell: number, digit: number) => void} print
 * @property {(line: number, value: number | null) => void} printClue
 * @property {() => void} undo
 * @property {() => void} redo
 * @property {() => void} keep
 * @property {(text: string) => void} paste
 */

export class Fields {
  /**
   * @param {HTMLElement} grid
   * @param {Asked} asked
   */
  constructor(grid, asked) {
    this.grid = grid;
    this.asked = asked;
    this.side = Number(grid.dataset.side);
    /** The rule whose clues there are fields for. */
    this.rule = grid.dataset.rule ?? null;
    /** @type {HTMLInputElement[]} */ this.cells = [...grid.querySelectorAll("input")].filter((it) => it.dataset.cell);
    /** @type {Map<number, HTMLInputElement>} */ this.clues = new Map();
    for (const it of grid.querySelectorAll("input")) if (it.dataset.line) this.clues.set(Number(it.dataset.line), it);
    grid.addEventListener("keydown", (it) => this.#onKey(it));
    grid.addEventListener("input", (it) => this.#onInput(it));
    grid.addEventListener("focusin", (it) => this.#onFocus(it));
    grid.addEventListener("paste", (it) => this.#onPaste(it));
  }

  /**
   * What stands in the fields.
   * @returns {Typed}
   */
  read() {
    const number = (/** @type {HTMLInputElement | undefined} */ it) => (it?.value ? Number(it.value) : null);
    const lines = (/** @type {number} */ from) => Array.from({ length: this.side }, (_, at) => number(this.clues.get(from + at)));
    const clues = this.rule === null ? {} : { [this.rule]: { rows: lines(0), columns: lines(this.side) } };
    return { givens: this.cells.map((it) => number(it) ?? 0), clues };
  }

  /**
   * Shows a board, and what is uncertain in it: two digits where solutions differ.
   * @param {Typed} board
   * @param {Typed} kept What differs from this is marked.
   */
  show(board, kept) {
    this.cells.forEach((it, at) => {
      set(it, board.givens[at] ? String(board.givens[at]) : "");
      it.toggleAttribute("data-changed", board.givens[at] !== kept.givens[at]);
    });
    if (this.rule === null) return;
    const { rows, columns } = board.clues[this.rule];
    const before = kept.clues[this.rule];
    [...rows, ...columns].forEach((clue, line) => {
      const it = this.clues.get(line);
      if (!it) return;
      set(it, clue === null ? "" : String(clue));
      it.toggleAttribute("data-changed", clue !== [...before.rows, ...before.columns][line]);
    });
  }

  /** @param {[number, number, number][]} differences */
  point(differences) {
    const by = new Map(differences.map(([cell, a, b]) => [cell, [a, b]]));
    this.cells.forEach((it, at) => {
      const pair = by.get(at);
      it.placeholder = pair ? pair.join(" ") : "";
      it.toggleAttribute("data-differs", pair !== undefined);
      if (pair) it.setAttribute("aria-description", `${pair.join(" or ")}: solutions differ here`);
      else it.removeAttribute("aria-description");
    });
  }

  /** @param {FocusEvent} event */
  #onFocus(event) {
    if (!(event.target instanceof HTMLInputElement)) return;
    for (const it of this.grid.querySelectorAll("input")) it.tabIndex = it === event.target ? 0 : -1;
    event.target.select();
  }

  /** @param {KeyboardEvent} event */
  #onKey(event) {
    const field = event.target;
    if (!(field instanceof HTMLInputElement)) return;
    const isCommand = event.ctrlKey || event.metaKey;
    const key = event.key.toLowerCase();
    if (isCommand && (key === "z" || key === "y")) {
      event.preventDefault();
      return key === "y" || event.shiftKey ? this.asked.redo() : this.asked.undo();
    }
    if (isCommand && key === "s") {
      event.preventDefault();
      return this.asked.keep();
    }
    if (isCommand || event.altKey) return;
    const to = this.#beside(field, event.key);
    if (!to) return;
    event.preventDefault();
    to.focus();
  }

  /**
   * The field that a key leads to.
   * @param {HTMLInputElement} field
   * @param {string} key
   */
  #beside(field, key) {
    const { side } = this;
    // Clues stand in the row and column before the first.
    const line = field.dataset.line === undefined ? null : Number(field.dataset.line);
    const cell = Number(field.dataset.cell);
    const row = line === null ? Math.floor(cell / side) : line < side ? line : -1;
    const column = line === null ? cell % side : line < side ? -1 : line - side;
    /** @type {Record<string, [number, number]>} */
    const places = {
      ArrowUp: [row - 1, column],
      ArrowDown: [row + 1, column],
      ArrowLeft: [row, column - 1],
      ArrowRight: [row, column + 1],
      Home: [row, 0],
      End: [row, side - 1],
    };
    const place = Object.hasOwn(places, key) ? places[key] : null;
    if (!place) return null;
    const [down, right] = place;
    if (down >= side || right >= side || (down < 0 && right < 0)) return null;
    if (down < 0) return this.clues.get(side + right) ?? null;
    return right < 0 ? (this.clues.get(down) ?? null) : this.cells[down * side + right];
  }

  /** @param {Event} event */
  #onInput(event) {
    const field = event.target;
    if (!(field instanceof HTMLInputElement)) return;
    const figures = field.value.replace(/\D/g, "");
    if (field.dataset.line !== undefined) {
      set(field, figures);
      return this.asked.printClue(Number(field.dataset.line), figures === "" ? null : Number(figures));
    }
    // On a board of one-figure digits the last that was typed counts, and the next takes its place.
    const digit = Number(this.side > 9 ? figures : figures.slice(-1)) || 0;
    const fits = digit <= this.side ? digit : Number(figures.slice(-1));
    set(field, fits ? String(fits) : "");
    if (this.side <= 9) field.select();
    this.asked.print(Number(field.dataset.cell), fits);
  }

  /** @param {ClipboardEvent} event */
  #onPaste(event) {
    const text = event.clipboardData?.getData("text/plain") ?? "";
    if (text.trim().length < 4) return;
    event.preventDefault();
    this.asked.paste(text);
  }
}

/**
 * @param {HTMLInputElement} field
 * @param {string} value
 */
function set(field, value) {
  if (field.value !== value) field.value = value;
}
