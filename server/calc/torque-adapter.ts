import { show } from "./figures.ts";
import type { Refused, Result, Worked } from "./result.ts";
import { answer, refuse, refuseNotPositive, refuseUnusable } from "./result.ts";

/** A torque wrench with an adapter between its square and the fastener. */
export interface WrenchWithAdapter {
  /** Grip mark of the handle to the centre of the drive square. */
  readonly wrenchLength_mm: number;
  /** Centre of the drive square to the centre of the fastener, zero or more. */
  readonly adapterLength_mm: number;
  /** Angle of the adapter to the line of the wrench: 0 straight on, 90 square to it, 180 folded back. */
  readonly angle_deg: number;
}

export interface AdaptedTorque extends Worked {
  /** What the dial or scale of the wrench is set to. */
  readonly dial_Nm: number;
  /** What the fastener gets. */
  readonly fastener_Nm: number;
  /** Grip mark to the fastener along the line of the wrench. */
  readonly effectiveLength_mm: number;
  /** fastener / dial. */
  readonly factor: number;
}

/** Cosine of an angle in degrees, exact at the quarter turns, where a shop reads "no change" and means none. */
function cosineOf(angle_deg: number): number {
  const turned = ((angle_deg % 360) + 360) % 360;
  if (turned === 90 || turned === 270) return 0;
  if (turned === 180) return -1;
  return Math.cos((turned * Math.PI) / 180);
}

function effectiveLength(wrench: WrenchWithAdapter): number | Refused {
  const { wrenchLength_mm, adapterLength_mm, angle_deg } = wrench;
  const bad =
    refuseNotPositive({ "wrench length": wrenchLength_mm }) ??
    refuseUnusable({ "adapter length": adapterLength_mm, "adapter angle": angle_deg });
  if (bad !== undefined) return bad;
  if (adapterLength_mm < 0) {
    return refuse("The adapter length must not be negative; write an adapter that folds back with an angle of 180.");
  }
  if (angle_deg < -180 || angle_deg > 180) {
    return refuse(`The adapter angle must lie between -180 and 180 degrees, not ${angle_deg}.`);
  }
  const effective_mm = wrenchLength_mm + adapterLength_mm * cosineOf(angle_deg);
  if (effective_mm <= 0) {
    return refuse(
      `An adapter of ${show(adapterLength_mm)} mm folded back on a wrench of ${show(wrenchLength_mm)} mm reaches past the grip; no setting gives a torque.`,
    );
  }
  return effective_mm;
}

function lengthStep(wrench: WrenchWithAdapter, effective_mm: number): string {
  return `Length to the fastener along the wrench: ${show(wrench.wrenchLength_mm)} + ${show(wrench.adapterLength_mm)} x cos ${show(wrench.angle_deg)} deg = ${show(effective_mm)} mm.`;
}

/**
 * Dial setting that puts a wanted torque on the fastener.
 * @param fastener_Nm torque wanted at the fastener, greater than zero
 * @param wrench lengths in mm and the angle in degrees, -180 to 180
 * @returns refused when a length is out of range or the adapter folds back past the grip
 * Source: US Army TM 9-254 pp. 91-92 and TM 1-1500-204-23-9 p. 143 (setting = torque x wrench / (wrench + adapter x cos angle)).
 */
export function dialSetting(fastener_Nm: number, wrench: WrenchWithAdapter): Result<AdaptedTorque> {
  const bad = refuseNotPositive({ "torque at the fastener": fastener_Nm });
  if (bad !== undefined) return bad;
  const effective_mm = effectiveLength(wrench);
  if (typeof effective_mm !== "number") return effective_mm;
  const dial_Nm = (fastener_Nm * wrench.wrenchLength_mm) / effective_mm;
  return answer({
    dial_Nm,
    fastener_Nm,
    effectiveLength_mm: effective_mm,
    factor: effective_mm / wrench.wrenchLength_mm,
    steps: [
      lengthStep(wrench, effective_mm),
      `Dial: ${show(fastener_Nm)} N.m at the fastener x ${show(wrench.wrenchLength_mm)} / ${show(effective_mm)} = ${show(dial_Nm, 4)} N.m.`,
    ],
  });
}

/**
 * Torque that the fastener gets from a dial setting.
 * @param dial_Nm what the wrench was set to, greater than zero
 * @param wrench lengths in mm and the angle in degrees, -180 to 180
 * @returns refused as dialSetting
 * Source: as dialSetting, solved for the fastener.
 */
export function fastenerTorque(dial_Nm: number, wrench: WrenchWithAdapter): Result<AdaptedTorque> {
  const bad = refuseNotPositive({ "dial setting": dial_Nm });
  if (bad !== undefined) return bad;
  const effective_mm = effectiveLength(wrench);
  if (typeof effective_mm !== "number") return effective_mm;
  const fastener_Nm = (dial_Nm * effective_mm) / wrench.wrenchLength_mm;
  return answer({
    dial_Nm,
    fastener_Nm,
    effectiveLength_mm: effective_mm,
    factor: effective_mm / wrench.wrenchLength_mm,
    steps: [
      lengthStep(wrench, effective_mm),
      `At the fastener: ${show(dial_Nm)} N.m on the dial x ${show(effective_mm)} / ${show(wrench.wrenchLength_mm)} = ${show(fastener_Nm, 4)} N.m.`,
    ],
  });
}
