// The page of one test solve: it can be written into the pack's `solves`.

import { ask, told } from "./api.js";

const button = document.getElementById("write");
button?.addEventListener("click", async () => {
  /** @type {import("./api.js").Answer<{file: string}>} */
  const { value, refused } = await ask("PUT", `/solves/${button.dataset.solve}/file`);
  const said = document.getElementById("said");
  if (said) said.textContent = refused ? told(refused) : `Written: ${value.file}. galley calibrate learns from it.`;
});
