/** What a host supplies to the core. The core asks for nothing else of the outside world. */
export type { FileState } from "../checking/ask.ts";
