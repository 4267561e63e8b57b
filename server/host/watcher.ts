/** Watches a folder for editors that do not tell of changes on disk themselves. */
import { type FSWatcher, watch } from "node:fs";
import { sep } from "node:path";

/** Changes come in bursts (a checkout, an unpacked archive): they are told together. */
const QUIET_ms = 100;

/**
 * @param changed gets paths relative to the root, with forward slashes, each once; what happened to them is for the listener to look up
 * @param failed gets the reason once, when the system cannot watch (any more)
 * @returns ends the watch
 */
export function watchFolder(
  root: string,
  changed: (paths: string[]) => void,
  failed: (reason: string) => void,
): () => void {
  let waiting = new Set<string>();
  let timer: NodeJS.Timeout | undefined;
  let watcher: FSWatcher | undefined;
  const stop = (): void => {
    clearTimeout(timer);
    watcher?.close();
    watcher = undefined;
  };
  const fail = (error: unknown): void => {
    stop();
    failed(error instanceof Error ? error.message : String(error));
  };
  try {
    watcher = watch(root, { recursive: true }, (_event, name) => {
      if (name === null) return;
      waiting.add(name.split(sep).join("/"));
      clearTimeout(timer);
      timer = setTimeout(() => {
        const paths = [...waiting];
        waiting = new Set();
        changed(paths);
      }, QUIET_ms);
    });
    watcher.on("error", fail);
  } catch (error) {
    fail(error);
  }
  return stop;
}
