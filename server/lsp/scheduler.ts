/** Works in slices between which messages are read, so that a long check never holds up a keystroke. */

/** Longest slice, in milliseconds. */
export const SLICE_ms = 8;

/** Runs a function once all messages that have arrived were read. */
export type Soon = (run: () => void) => void;

/** For hosts without `setImmediate`: a message to oneself waits behind those that arrived, and is not slowed down as a timer is. */
export function soonByMessage(): Soon {
  const channel = new MessageChannel();
  const waiting: (() => void)[] = [];
  channel.port1.onmessage = () => waiting.shift()?.();
  return (run) => {
    waiting.push(run);
    channel.port2.postMessage(0);
  };
}

export class Scheduler {
  readonly #soon: Soon;
  readonly #slice: (stop: () => boolean) => boolean;
  #planned = false;
  #timer: ReturnType<typeof setTimeout> | undefined;

  /** @param slice works until `stop` says so; true when nothing is left */
  constructor(soon: Soon, slice: (stop: () => boolean) => boolean) {
    this.#soon = soon;
    this.#slice = slice;
  }

  /** Plans work. @param delay_ms from now; a later call with a delay starts it anew */
  wake(delay_ms = 0): void {
    if (delay_ms > 0) {
      clearTimeout(this.#timer);
      this.#timer = setTimeout(() => this.#plan(), delay_ms);
      return;
    }
    this.#plan();
  }

  #plan(): void {
    if (this.#planned) return;
    this.#planned = true;
    this.#soon(() => {
      this.#planned = false;
      const end = performance.now() + SLICE_ms;
      if (!this.#slice(() => performance.now() >= end)) this.#plan();
    });
  }

  dispose(): void {
    clearTimeout(this.#timer);
  }
}
