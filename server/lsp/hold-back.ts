/**
 * The line that a person is typing on. New findings on it wait until the cursor leaves the line, the file is saved or a moment has passed:
 * a squiggle under a half-typed word says nothing that the person does not know.
 */

/** How long new findings on the line are held back at most, in milliseconds. */
export const HELD_ms = 1_500;

export class HoldBack {
  #path: string | undefined;
  #line = -1;
  #timer: ReturnType<typeof setTimeout> | undefined;
  readonly #released: (path: string) => void;
  readonly #time_ms: number;

  /** @param released called when what was held back may be shown */
  constructor(released: (path: string) => void, time_ms = HELD_ms) {
    this.#released = released;
    this.#time_ms = time_ms;
  }

  /** The line held back in a file, or -1. */
  lineIn(path: string): number {
    return path === this.#path ? this.#line : -1;
  }

  /** The person typed on this line; a line held before is released. */
  typed(path: string, line: number): void {
    const before = this.#path;
    if (before !== undefined && before !== path) this.release();
    this.#path = path;
    this.#line = line;
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.release(), this.#time_ms);
  }

  /** The cursor stands on this line now. */
  cursor(path: string, line: number): void {
    if (this.#path !== undefined && (path !== this.#path || line !== this.#line)) this.release();
  }

  release(): void {
    const path = this.#path;
    clearTimeout(this.#timer);
    this.#path = undefined;
    this.#line = -1;
    if (path !== undefined) this.#released(path);
  }

  dispose(): void {
    clearTimeout(this.#timer);
    this.#path = undefined;
  }
}
