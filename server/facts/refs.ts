/** Names within a job: `E3` inside job J26-014 is `J26-014/E3` elsewhere. */

/**
 * @param scope the job's name, or `engine:` and the engine's name for work in service
 * @param ref as written: `E3`, or with its job `J26-014/E3`
 */
export function qualify(scope: string, ref: string): string {
  return ref.includes("/") ? ref : `${scope}/${ref}`;
}

/** The scope in which a block of work records: its job, or its engine when it stands outside any job. */
export function scopeOf(block: { readonly job: string; readonly engine: string }): string {
  return block.job !== "" ? block.job : `engine:${block.engine}`;
}

/** A qualified name without its scope. */
export function shortRef(ref: string): string {
  return ref.slice(ref.lastIndexOf("/") + 1);
}
