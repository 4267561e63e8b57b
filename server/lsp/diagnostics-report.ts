/** The report that a person sends when something is wrong: what runs where, in which state, what failed. No line of any record is in it. */
import type { Session } from "./session.ts";

export function diagnosticsReport(session: Session): string {
  const status = session.status();
  const lines = [
    `Gudgeon ${session.host.version} on ${session.host.name}`,
    `state: ${status.state}, as of ${status.asOf}${session.trusted ? "" : ", restricted mode"}`,
    `findings shown: ${status.errors} errors, ${status.warnings} warnings, ${status.notes} notes`,
    `last sweep: ${status.lastSweep_ms === undefined ? "none yet" : `${status.lastSweep_ms.toFixed(1)} ms`}`,
    `settings: ${JSON.stringify(session.settings)}`,
  ];
  for (const [i, shop] of session.shops.entries()) {
    let rows = 0;
    let blocks = 0;
    for (const document of shop.workspace.documents.values()) {
      rows += document.lines.length;
      blocks += document.blocks.length;
    }
    const { work } = shop.checker;
    lines.push(
      `shop ${i + 1} (${shop.isFolder ? "folder" : "single files"}): ${shop.workspace.documents.size} files, ${shop.open.size} open, ${rows} lines, ${blocks} blocks, ` +
        `${shop.fileStates.size} named files, ${work.ruleCalls} rule calls, ${work.judged} judged`,
    );
  }
  for (const problem of session.problems) lines.push(`problem: ${problem}`);
  const failures = session.failures.all;
  lines.push(failures.length === 0 ? "failures: none" : `failures: ${failures.length}`);
  for (const one of failures) lines.push("", `${one.times} times in ${one.what}:`, one.stack);
  return `${lines.join("\n")}\n`;
}
