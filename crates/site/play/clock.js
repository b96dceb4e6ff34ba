// How long the solver has been at it: a quiet count that stops while the page is out of sight.

/** A tick that comes later than this was asleep with its machine. */
const LONGEST_TICK = 5_000;

export class Clock {
  #spent;
  #isRunning = false;
  /** Whether the page was in sight since `#last`. */
  #isSeen = !document.hidden;
  #last = 0;

  /**
   * @param {number} spent Milliseconds from before.
   * @param {() => void} onTick Called every second while it runs.
   */
  constructor(spent, onTick) {
    this.#spent = spent;
    setInterval(() => {
      if (!this.#isRunning) return;
      this.#count();
      onTick();
    }, 1_000);
    document.addEventListener("visibilitychange", () => {
      // What was in sight until now counts, and nothing until it is again: ticks go on behind another tab.
      this.#count();
      this.#isSeen = !document.hidden;
    });
  }

  /** Milliseconds. */
  get spent() {
    this.#count();
    return this.#spent;
  }

  set spent(milliseconds) {
    this.#spent = milliseconds;
    this.#last = performance.now();
  }

  /** Lets it run, from the first thing that is written. */
  start() {
    if (this.#isRunning) return;
    this.#isRunning = true;
    this.#last = performance.now();
  }

  /** Stops it for good, or until it is started again. */
  stop() {
    this.#count();
    this.#isRunning = false;
  }

  #count() {
    if (!this.#isRunning) return;
    const now = performance.now();
    if (this.#isSeen) this.#spent += Math.min(now - this.#last, LONGEST_TICK);
    this.#last = now;
  }
}
