/**
 * What a release relies on: the work of its job and the blocks that the work was judged by, each with the digest that `grammar/seals.md` asks for.
 *
 * Blocks that go on growing after the release (the engine, instruments, people) count as they stood on its day.
 */
import type { Ask, Total } from "../checking/ask.ts";
import { digestOnDay, type ReliedOn, releaseDigest, textDigest } from "../facts/text-digest.ts";
import type { WorkBlock } from "../facts/types.ts";
import { formatDate } from "../quantity/civil-date.ts";

/** Whether a block of work was there when the release was written, as far as days and times tell. */
function isBefore(block: WorkBlock, release: WorkBlock): boolean {
  if (block.date === undefined || release.date === undefined) return true;
  if (block.date !== release.date) return block.date < release.date;
  return block.time === undefined || release.time === undefined || block.time <= release.time;
}

class Relied {
  readonly #found = new Map<string, ReliedOn>();
  readonly #ask: Ask;
  readonly #day: string;

  constructor(ask: Ask, day: string) {
    this.#ask = ask;
    this.#day = day;
  }

  add(block: string, name: string, digest: string): void {
    if (name !== "") this.#found.set(`${block} ${name}`, { block, name, digest });
  }

  whole(block: string, ref: string | undefined, name: string): void {
    const text = ref === undefined ? undefined : this.#ask.text(ref);
    if (text !== undefined) this.add(block, name, textDigest(text));
  }

  onItsDay(block: string, name: string): void {
    if (name === "") return;
    const text = this.#ask.text(`${block}/${name}`);
    if (text !== undefined) this.add(block, name, digestOnDay(text, this.#day));
  }

  get list(): ReliedOn[] {
    return [...this.#found.values()];
  }
}

/** Key: `ref` of the release. */
export const reliedOn: Total<readonly ReliedOn[]> = {
  name: "relied-on",
  compute: (ref, ask) => {
    const release = ask.workBlock(ref);
    if (release?.kind !== "release") return [];
    const relied = new Relied(ask, release.date === undefined ? "" : formatDate(release.date));
    // Not those who sign the release itself: a later signer must not break the seal of an earlier one.
    relied.onItsDay("person", release.by);
    for (const head of ask.work(release.job)) {
      const block = ask.workBlock(head.ref);
      if (block && (block.kind === "entry" || block.kind === "run") && isBefore(block, release))
        addWork(block, relied, ask);
    }
    const job = ask.job(release.job);
    relied.whole("job", job?.ref, job?.name ?? "");
    const engine = ask.engine(job?.engine ?? "");
    relied.onItsDay("engine", engine?.name ?? "");
    const type = ask.engineType(engine?.type ?? "");
    relied.whole("engine-type", type?.ref, type?.name ?? "");
    const limits = ask.limits(engine?.type ?? "", job?.limits ?? "");
    if (limits) relied.whole("limits", limits.ref, `${limits.type} revision ${limits.revision}`);
    const route = ask.route(job?.route ?? "");
    relied.whole("route", route?.ref, route?.name ?? "");
    return relied.list;
  },
};

function addWork(block: WorkBlock, relied: Relied, ask: Ask): void {
  const seal = block.signs
    .filter((sign) => sign.seal.startsWith("1:"))
    .at(-1)
    ?.seal.slice(2)
    .toLowerCase();
  if (seal === undefined) relied.whole(block.kind, block.ref, block.name);
  else relied.add(block.kind, block.name, seal);
  for (const sign of block.signs) relied.onItsDay("person", sign.person);
  const used = [...block.readings, ...block.torques, ...block.compressions, ...block.checks].map(
    (line) => line.instrument,
  );
  const standards = block.readings.map((reading) => reading.standard);
  const stand = block.stand === "" ? undefined : ask.stand(block.stand);
  if (stand) relied.whole("stand", stand.ref, stand.name);
  const channels = stand?.channels.map((channel) => channel.instrument) ?? [];
  for (const name of new Set([...used, ...standards, ...channels])) relied.onItsDay("instrument", name);
}

/**
 * The digest that each seal of a release has to have, by the seal as written: the text above the line that carries it, and what the release relies on.
 * Key: `ref` of the release.
 */
export const releaseDigests: Total<Readonly<Record<string, string>>> = {
  name: "release-digests",
  compute: (ref, ask) => {
    const release = ask.workBlock(ref);
    const lines = ask.text(ref)?.split("\n") ?? [];
    const found: Record<string, string> = {};
    for (const sign of release?.signs ?? []) {
      if (!sign.seal.startsWith("1:")) continue;
      const at = lines.findIndex((line) => line.startsWith("sign ") && line.endsWith(` ${sign.seal}`));
      if (at >= 0) found[sign.seal] = releaseDigest(lines.slice(0, at), ask.total(reliedOn, ref));
    }
    return found;
  },
};
