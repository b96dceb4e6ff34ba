// The page of one puzzle: each keystroke is judged, mends are taken by one press, and a change is tried before it is kept.

import { ask, listen, madeAnew, say, told } from "./api.js";
import { attendQuestions } from "./asking.js";
import { Fields } from "./board.js";
import { showHistory } from "./history.js";
import { renewLetter } from "./letter.js";
import { follow } from "./reading.js";
import { Typing, isSame, pasted } from "./typed.js";

/** @typedef {import("./typed.js").Typed} Typed */
/** @typedef {{verdict: string, says: string, problems: {message: string, help: string | null}[], differences: [number, number, number][]}} Verdict */
/** @typedef {{says: string, why: string, board: Typed}} Offer */
/** @typedef {{says: string, walkthrough: string, minutes: {solver: string, middle: number, range: string}[], techniques: string[], ways_in: string[], passages: string[]}} Account */
/** @typedef {{digest: string, is_sealed: boolean, board: Typed | null}} PuzzleNow */

/** The parts that are replaced when more is found out. */
const FOUND = ["found", "walkthrough"];

const section = document.getElementById("board");
if (section) begin(section);
else follow_alone();

/** A page without a board to type on: sealed, or no puzzle. It only follows what happens. */
function follow_alone() {
  const sealed = document.getElementById("sealed");
  document.getElementById("open-seal")?.addEventListener("click", async () => {
    say("The seal is being opened.");
    const { refused } = await ask("PUT", `/puzzles/${sealed?.dataset.puzzle}/seal`, { open: true });
    if (refused) return say(told(refused));
    location.reload();
  });
  listen(async (word) => {
    if (word === "end") return;
    const main = await madeAnew();
    const now = document.querySelector("main");
    if (!main || !now || main.innerHTML === now.innerHTML) return;
    if (main.querySelector("#board") || main.querySelector("#sealed")) location.reload();
    else now.replaceChildren(...main.childNodes);
  });
}

/** @param {HTMLElement} section */
function begin(section) {
  const id = section.dataset.puzzle ?? "";
  let digest = section.dataset.digest ?? "";
  const fields = new Fields(part(".typed"), {
    print: (cell, digit) => typing.print(cell, digit) && changed(),
    printClue: (line, value) => fields.rule !== null && typing.printClue(fields.rule, line, value) && changed(),
    undo: () => (typing.undo() ? changed("Undone.") : tell("There is nothing to undo.")),
    redo: () => (typing.redo() ? changed("Done again.") : tell("There is nothing to do again.")),
    keep,
    paste,
  });
  // What the browser may have kept in the fields from before is no change.
  const typing = new Typing(read());
  const verdict = part(".verdict");
  const faults = part(".faults");
  const offers = part("#offers");
  const tried = part("#tried");
  const said = part("#said");
  const [undoButton, redoButton, keepButton, backButton, repairButton, whatIfButton] = [
    ["#undo", fields.asked.undo],
    ["#redo", fields.asked.redo],
    ["#keep", keep],
    ["#put-back", () => typing.take(typing.kept) && changed("It stands as in the file.")],
    ["#repair", repair],
    ["#what-if", whatIf],
  ].map(([name, then]) => {
    const button = /** @type {HTMLButtonElement} */ (part(String(name)));
    button.addEventListener("click", /** @type {() => void} */ (then));
    return button;
  });
  part("#take-pasted").addEventListener("click", () => paste(/** @type {HTMLTextAreaElement} */ (part("#pasted")).value));
  /** The question that is being asked about the board. */ let asking = new AbortController();
  let isLate = false;
  let isKeeping = false;

  attend();
  // Some of the page is replaced while it is open, and some is not.
  document.querySelector("main")?.addEventListener("click", seal);
  showPast();
  listen(onNews);
  addEventListener("beforeunload", (event) => typing.isChanged && event.preventDefault());

  /** @returns {Typed} */
  function read() {
    for (const it of section.querySelectorAll("input")) it.value = it.defaultValue;
    return fields.read();
  }

  /** What could go of the puzzle as it is kept. */
  async function tellSpare() {
    const place = document.getElementById("spare");
    if (!place || place.dataset.isTold) return;
    place.dataset.isTold = "yes";
    /** @type {import("./api.js").Answer<{spare: string[], undecided: string[]}>} */
    const { value, refused } = await ask("GET", `/puzzles/${id}/spare`);
    if (refused) return (place.textContent = told(refused));
    const none = value.undecided.length ? "Nothing was found." : "Nothing: each given and each clue is needed.";
    place.replaceChildren(element("p", value.spare.length ? `${value.spare.join(", ")}.` : none));
    if (value.undecided.length) place.append(element("p", `Not found out within the work allowed: ${value.undecided.join(", ")}.`));
  }

  /**
   * Opens or closes a seal: here, or in the file.
   * @param {MouseEvent} event
   */
  async function seal(event) {
    const button = event.target instanceof HTMLElement ? event.target.closest("#close-seal, .write-seal") : null;
    if (!(button instanceof HTMLElement)) return;
    const isWritten = button.matches(".write-seal");
    const { refused } = isWritten
      ? await ask("PUT", `/puzzles/${id}/sealed`, { sealed: button.dataset.sealed === "true", began_from: digest })
      : await ask("PUT", `/puzzles/${id}/seal`, { open: false });
    if (refused) return tell(told(refused));
    location.reload();
  }

  /** What is found out, and the walkthrough, when they were replaced or are there first. */
  function attend() {
    tellSpare();
    follow();
    attendQuestions(id);
  }

  /** @param {string} [what] */
  function changed(what = "") {
    fields.show(typing.now, typing.kept);
    offers.replaceChildren();
    tried.replaceChildren();
    tell(what);
    buttons();
    judge();
  }

  function buttons() {
    undoButton.disabled = !typing.canUndo;
    redoButton.disabled = !typing.canRedo;
    keepButton.disabled = backButton.disabled = whatIfButton.disabled = !typing.isChanged;
  }

  async function judge() {
    asking.abort();
    asking = new AbortController();
    const board = typing.now;
    /** @type {import("./api.js").Answer<Verdict>} */
    const { value, refused } = await ask("POST", `/puzzles/${id}/verdict`, board, asking.signal);
    if (!isSame(board, typing.now)) return;
    faults.replaceChildren();
    if (refused) return tell(told(refused));
    verdict.textContent = value.says;
    verdict.dataset.verdict = value.verdict;
    faults.append(...value.problems.map((it) => element("li", [it.message, it.help].filter(Boolean).join("; "))));
    fields.point(value.differences);
    repairButton.hidden = value.verdict !== "none" && value.verdict !== "many";
    keepButton.disabled = !typing.isChanged || value.verdict === "unreadable";
    whatIfButton.disabled = keepButton.disabled;
  }

  async function repair() {
    tell("Looking for what would make it sound.");
    const board = typing.now;
    /** @type {import("./api.js").Answer<{says: string[], offers: Offer[]}>} */
    const { value, refused } = await ask("POST", `/puzzles/${id}/repair`, board, asking.signal);
    if (!isSame(board, typing.now)) return;
    if (refused) return tell(told(refused));
    const list = element("ul", "");
    for (const it of value.offers) {
      const take = button(`Take it: ${it.says}`, () => {
        typing.take(it.board);
        changed(`Taken: ${it.says}. Undo takes it back.`);
        undoButton.focus();
      });
      const item = element("li", "");
      item.append(take, element("span", ` ${it.why}`));
      list.append(item);
    }
    offers.replaceChildren(...value.says.map((it) => element("p", it)), list);
    tell(value.offers.length ? `${value.offers.length} changes are offered below.` : "Nothing was found to offer.");
  }

  async function whatIf() {
    tell("Finding out what would change.");
    const board = typing.now;
    /** @type {import("./api.js").Answer<{kept: Account, tried: Account}>} */
    const { value, refused } = await ask("POST", `/puzzles/${id}/what-if`, board, asking.signal);
    if (!isSame(board, typing.now)) return;
    if (refused) return tell(told(refused));
    tried.replaceChildren(element("h2", "What if it stood so"), compared(value.kept, value.tried));
    tell("");
    tried.focus();
  }

  async function keep() {
    if (!typing.isChanged || isKeeping) return;
    isKeeping = true;
    const board = typing.now;
    /** @type {import("./api.js").Answer<{digest: string}>} */
    const { value, refused } = await ask("PUT", `/puzzles/${id}/board`, { board, began_from: digest });
    isKeeping = false;
    if (refused) return tell(told(refused));
    digest = value.digest;
    typing.kept = board;
    fields.show(typing.now, typing.kept);
    buttons();
    tell("Kept. Undo goes back before it, to be kept anew.");
    showPast();
    if (isLate) await refresh();
  }

  /** @param {string} text */
  async function paste(text) {
    const givens = pasted(text, fields.side);
    if (givens) return typing.take({ ...typing.now, givens }) && changed("Pasted. Undo takes it back.");
    /** @type {import("./api.js").Answer<{givens: number[], clues: Typed["clues"][string] | null}>} */
    const { value, refused } = await ask("POST", `/puzzles/${id}/message`, { text });
    if (refused) return tell(told(refused));
    const clues = value.clues && fields.rule !== null ? { ...typing.now.clues, [fields.rule]: value.clues } : typing.now.clues;
    if (typing.take({ ...typing.now, givens: value.givens, clues })) changed("Pasted from the message. Undo takes it back.");
  }

  /** Shows what the file was before. */
  function showPast() {
    showHistory(id, () => digest, (past) => typing.take(past) && changed("It stands as it did before; keep it to write it."));
  }

  /** @param {string} word */
  async function onNews(word) {
    if (word === "end") return say("The desk has ended. What stands here is not lost.");
    if (word === "noted") return showPast();
    if (word !== "files" && word !== "studied") return;
    await refresh();
  }

  /** Takes over what another program has done to the file, unless something is typed here. */
  async function refresh() {
    if (isKeeping) return (isLate = true);
    isLate = false;
    /** @type {import("./api.js").Answer<PuzzleNow>} */
    const { value, refused } = await ask("GET", `/puzzles/${id}`);
    if (isKeeping) return (isLate = true);
    if (refused) return refused.status === 404 ? say("The puzzle's file is no puzzle any more, or was taken away. What stands here is not lost.") : undefined;
    if (value.is_sealed || !value.board) return location.reload();
    if (value.digest !== digest && typing.isChanged && !isSame(value.board, typing.kept)) {
      return say("The file was changed by another program since you began. Keeping is refused until you put your change back and load the page again.");
    }
    const isAnother = value.digest !== digest;
    digest = value.digest;
    if (isAnother) showPast();
    if (!isSame(value.board, typing.kept)) {
      document.getElementById("answer")?.replaceChildren();
      const isSideways = !typing.isChanged;
      typing.kept = value.board;
      if (isSideways) {
        typing.take(value.board);
        changed("The file was changed by another program; this is how it stands now.");
      }
    }
    const main = await madeAnew();
    for (const name of FOUND) {
      const [now, then] = [document.getElementById(name), main?.querySelector(`#${name}`)];
      if (now && then && now.innerHTML !== then.innerHTML && !now.contains(document.activeElement)) now.replaceWith(then);
      else if (!now && then) document.getElementById("history")?.before(then);
      else if (now && main && !then) now.remove();
    }
    // An answer stays as long as the board that it is about.
    const [asked, then] = [document.getElementById("asking"), main?.querySelector("#asking")];
    if (asked && main && !then) asked.remove();
    else if (!asked && then) document.getElementById("history")?.before(then);
    renewLetter(main);
    attend();
  }

  /** @param {string} what */
  function tell(what) {
    said.textContent = what;
  }
}

/**
 * Two accounts in a table.
 * @param {Account} kept
 * @param {Account} tried
 */
function compared(kept, tried) {
  const table = element("table", "");
  const head = element("tr", "");
  head.append(element("td", ""), ...["As it is kept", "As it is tried"].map((it) => scoped("col", it)));
  const body = element("tbody", "");
  const minutes = (/** @type {Account} */ it) => it.minutes.map((one) => `${one.solver}: ${one.middle} (${one.range})`);
  const rows = /** @type {[string, (it: Account) => string[]][]} */ ([
    ["Verdict", (it) => [it.says]],
    ["Walkthrough", (it) => [it.walkthrough]],
    ["Minutes", minutes],
    ["Ways in", (it) => it.ways_in],
    ["Techniques", (it) => it.techniques],
    ["Passages", (it) => it.passages],
  ]);
  for (const [name, of] of rows) {
    const row = element("tr", "");
    const cell = (/** @type {Account} */ it) => {
      const cell = element("td", "");
      cell.append(...(of(it).length ? of(it) : ["none"]).map((one) => element("p", one)));
      return cell;
    };
    row.append(scoped("row", name), cell(kept), cell(tried));
    body.append(row);
  }
  const top = element("thead", "");
  top.append(head);
  table.append(top, body);
  return table;
}

/**
 * @param {string} scope
 * @param {string} text
 */
function scoped(scope, text) {
  const it = element("th", text);
  it.setAttribute("scope", scope);
  return it;
}

/**
 * @param {string} text
 * @param {() => void} then
 */
function button(text, then) {
  const it = /** @type {HTMLButtonElement} */ (element("button", text));
  it.type = "button";
  it.addEventListener("click", then);
  return it;
}

/**
 * @param {string} tag
 * @param {string} text
 */
function element(tag, text) {
  const it = document.createElement(tag);
  it.textContent = text;
  return it;
}

/**
 * A part of the page that is always there.
 * @param {string} name
 * @returns {HTMLElement}
 */
function part(name) {
  const it = document.querySelector(`#board ${name}`);
  if (!(it instanceof HTMLElement)) throw new Error(`no ${name}`);
  return it;
}
