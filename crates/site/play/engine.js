// The engine in the page: fetched when the page has nothing better to do, so that the page can be used before.

import init, { Player } from "../engine/player.js";
import { positionOf } from "./sheet.js";

/** @typedef {import("./sheet.js").Sheet} Sheet */
/** @typedef {import("./puzzle.js").Puzzle} Puzzle */

/**
 * @typedef {{text: string, cells?: number[]}} Said
 * @typedef {{kind: "hint", technique: string, name: string, hardest: string, taught: boolean, where: Said, what: Said, why: Said & {picture: string},
 *   settles: {ink: [number, number][], pencil: [number, number[]][], marks: [number, string][]}}} Hint
 * @typedef {{kind: "mistake", near: Said, which: Said}} Mistake
 * @typedef {{kind: "why", text: string, steps: {name: string, text: string, picture: string}[]}} Why
 * @typedef {{kind: "follows", steps: number} | {kind: "not-yet"}} Known
 * @typedef {{kind: "done"} | {kind: "fits"} | {kind: "none", text: string}} Other
 */

/** Where the engine is, from the folder of the puzzles' pages. */
const ADDRESS = "../play/engine.wasm";
/** The same as a script, for pages that are read from a disk: there browsers fetch scripts, but nothing else. */
const ADDRESS_ON_DISK = "../play/engine.js";

/** @type {Promise<void> | null} */
let loading = null;

export class Engine {
  /** @type {Player | null} */ #player = null;

  /**
   * @param {Puzzle} puzzle
   * @param {string} text The puzzle as the page embeds it.
   */
  constructor(puzzle, text) {
    this.puzzle = puzzle;
    this.text = text;
  }

  /**
   * Fetches the engine, once.
   * @throws If it cannot be had.
   */
  async load() {
    loading ??= fetched().catch((fault) => {
      loading = null;
      throw fault;
    });
    await loading;
    this.#player ??= new Player(this.text);
  }

  /**
   * A step from here.
   * @param {Sheet} sheet
   * @returns {Promise<Hint | Mistake | Other>}
   */
  async hint(sheet) {
    return this.#asked((it) => it.hint(positionOf(this.puzzle, sheet)));
  }

  /**
   * Whether all of it is right.
   * @param {Sheet} sheet
   * @returns {Promise<Mistake | Other>}
   */
  async check(sheet) {
    return this.#asked((it) => it.check(positionOf(this.puzzle, sheet)));
  }

  /**
   * Why the cell holds its digit.
   * @param {Sheet} sheet
   * @param {number} cell
   * @returns {Promise<Why | Mistake | Other>}
   */
  async why(sheet, cell) {
    return this.#asked((it) => it.why(positionOf(this.puzzle, sheet), cell));
  }

  /**
   * The digits that each cell does not see.
   * @param {Sheet} sheet
   * @returns {Promise<number[][]>}
   */
  async pencil(sheet) {
    const answer = await this.#asked((it) => it.pencil(positionOf(this.puzzle, sheet)));
    return answer.pencil;
  }

  /**
   * @param {(player: Player) => string} question
   * @returns {Promise<any>}
   */
  async #asked(question) {
    await this.load();
    if (!this.#player) throw new Error("the engine is not there");
    return JSON.parse(question(this.#player));
  }
}

async function fetched() {
  const address = new URL(ADDRESS, document.baseURI);
  const isOnDisk = address.protocol === "file:";
  const bytes = isOnDisk ? await fromScript(ADDRESS_ON_DISK) : await (await answered(address)).arrayBuffer();
  await init({ module_or_path: bytes });
}

/** @param {URL} address */
async function answered(address) {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`${answer.status} for the engine`);
  return answer;
}

/**
 * The engine's bytes from a script that holds them.
 * @param {string} address
 * @returns {Promise<Uint8Array<ArrayBuffer>>}
 */
export function fromScript(address) {
  return new Promise((resolve, reject) => {
    const script = document.createElement("script");
    script.src = address;
    script.onload = () => {
      const text = /** @type {{galleyEngine?: string}} */ (globalThis).galleyEngine ?? "";
      resolve(Uint8Array.from(atob(text), (it) => it.charCodeAt(0)));
    };
    script.onerror = () => reject(new Error("the engine is not beside the page"));
    document.head.append(script);
  });
}
