/** Why something that claims to be evidence is not taken: each reason has its own name, and its own sentence where it arises. */
export type Reason =
  | "too-long"
  | "not-armoured"
  | "not-base64"
  | "truncated"
  | "left-over"
  | "not-sshsig"
  | "version"
  | "namespace"
  | "hash"
  | "key-unreadable"
  | "key-kind"
  | "key-weak"
  | "kind-mismatch"
  | "malformed"
  | "no-key"
  | "lapsed-key"
  | "wrong-key"
  | "not-touched"
  | "does-not-verify"
  | "not-supported";

/** Thrown inside this room and turned into a verdict at its door; `message` is a sentence for people. */
export class Refused extends Error {
  readonly reason: Reason;

  constructor(reason: Reason, message: string) {
    super(message);
    this.reason = reason;
  }
}
