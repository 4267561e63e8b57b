/** What the shop and its people make of findings: severities that the shop set, acceptances that hold. */
import type { Severity } from "../facts/types.ts";
import { acceptanceHolds } from "../totals/authority.ts";
import type { Ask, FindingView } from "./ask.ts";
import type { Finding, Judged } from "./finding.ts";

/** The severity that the shop gives a finding; the last line about its code counts. */
function severityOf(finding: Finding, ask: Ask): Severity | "off" {
  let severity: Severity | "off" = finding.severity;
  for (const line of ask.shop().severities) if (line.code === finding.code) severity = line.level;
  return severity;
}

/**
 * @param findings of one job, or of blocks outside any
 * @param job "" outside any job: nothing can be accepted there
 * @returns each finding with its severity, and with the acceptance that quiets it; findings that the shop turned off are left out
 */
export function judge(findings: readonly Finding[], job: string, ask: Ask): Judged[] {
  if (findings.length === 0) return [];
  const accepts = job === "" ? [] : ask.facts(job, "accepts");
  const judged: Judged[] = [];
  for (const finding of findings) {
    const severity = severityOf(finding, ask);
    if (severity === "off") continue;
    const { code, ref, place, message } = finding;
    const view: FindingView = { code, severity, ref, job, place, message, accepted: false };
    const line = accepts.find((placed) => placed.fact.code === code && acceptanceHolds(placed, view, ask));
    judged.push({
      finding,
      severity,
      quiet: line && { acceptedIn: line.block.ref, acceptedBy: line.fact.by, reason: line.fact.reason },
    });
  }
  return judged;
}
