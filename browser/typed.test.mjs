// What counts as a grid that was pasted, outside a browser: any text at all, and grids drawn in any way.

import assert from "node:assert/strict";
import { test } from "node:test";
import { pasted } from "../crates/desk/play/typed.js";

/** Numbers below `n`, the same in each run. */
function random(seed) {
  let state = seed;
  return (n) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * n);
  };
}

const PIECES = [..." .\n\t|+-_*#0123456789abcdefgABCDEFG", "h", "Z", "é", "１", "٣", "😀", "\u0000", "\u202e", "</p>"];

test("any text gives a grid of that side or none", () => {
  const below = random(1);
  const counts = { grid: 0, none: 0 };
  for (let n = 0; n < 20_000; n++) {
    const side = 4 + below(13);
    // Of few pieces, so that grids come up too; lengths about that of a grid.
    const pieces = Array.from({ length: 1 + below(5) }, () => PIECES[below(PIECES.length)]);
    const length = Math.max(0, side * side - 1 + below(3));
    const text = Array.from({ length }, () => pieces[below(pieces.length)]).join("");
    const digits = pasted(text, side);
    counts[digits ? "grid" : "none"]++;
    if (digits === null) continue;
    assert.equal(digits.length, side * side, text);
    assert.ok(digits.every((it) => Number.isInteger(it) && it >= 0 && it <= side), text);
  }
  assert.ok(counts.grid > 100 && counts.none > 100, JSON.stringify(counts));
});

test("a grid comes back however it is drawn", () => {
  const below = random(2);
  for (let n = 0; n < 2_000; n++) {
    const side = 4 + below(13);
    const digits = Array.from({ length: side * side }, () => below(side + 1));
    const empty = ".0"[below(2)];
    const sign = (digit) => (digit === 0 ? empty : below(2) ? digit.toString(17) : digit.toString(17).toUpperCase());
    const between = ["", " ", " | ", "\t", ","][below(5)];
    const [rowEnd, line] = [["\n", "\r\n", "", " |\n"][below(4)], below(3) ? "" : "----+----\n"];
    const rows = Array.from({ length: side }, (_, row) => digits.slice(row * side, (row + 1) * side).map(sign).join(between));
    const text = `${line}${rows.join(rowEnd + line)}${rowEnd}`;
    assert.deepEqual(pasted(text, side), digits, text);
    assert.equal(pasted(`${text}1`, side), null, "one cell too many");
    assert.equal(pasted(`${text} these are the rows`, side), null, "words");
  }
});
