/** What a host supplies to the core. The core asks for nothing else of the outside world. */
import type { CivilDate } from "../quantity/civil-date.ts";

/** What the host knows of a file that records name. */
export interface FileState {
  readonly exists: boolean;
  /** The path leads outside the workspace: never opened. */
  readonly outside: boolean;
  readonly size: number;
  /** SHA-256, 64 hex digits, where it was worked out. */
  readonly digest: string;
  /** Day of the camera's clock, where the picture has one. */
  readonly taken?: CivilDate;
}
