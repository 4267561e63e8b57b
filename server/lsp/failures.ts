/** Failures that were contained: each is logged once and said to the person once. */

export interface Failure {
  readonly what: string;
  readonly message: string;
  readonly stack: string;
  times: number;
}

export class Failures {
  readonly #known = new Map<string, Failure>();
  readonly #log: (text: string) => void;
  readonly #tell: (sentence: string) => void;
  #told = false;

  constructor(log: (text: string) => void, tell: (sentence: string) => void) {
    this.#log = log;
    this.#tell = tell;
  }

  get all(): readonly Failure[] {
    return [...this.#known.values()];
  }

  note(what: string, error: unknown): void {
    const message = error instanceof Error ? error.message : String(error);
    const key = `${what}\0${message}`;
    const known = this.#known.get(key);
    if (known) {
      known.times++;
      return;
    }
    const stack = error instanceof Error ? (error.stack ?? message) : message;
    this.#known.set(key, { what, message, stack, times: 1 });
    this.#log(`Contained a failure in ${what}: ${stack}`);
    if (this.#told) return;
    // One notification, not one a keystroke: the output and the report have the rest.
    this.#told = true;
    this.#tell(
      `Gudgeon failed in ${what} and goes on; nothing you wrote is lost. Please send the diagnostics report (command "Gudgeon: Copy Diagnostics Report").`,
    );
  }
}
