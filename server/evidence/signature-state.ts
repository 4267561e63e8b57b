/** From a signature file to the answer that rules get. */
import type { SignatureRequest, SignatureState } from "../checking/ask.ts";
import { verifySignature } from "./ssh-signature.ts";

/** What a host read: the text, nothing there, or why it would not read it. */
export type EvidenceFile = { readonly text: string } | { readonly absent: true } | { readonly refused: string };

export async function signatureState(file: EvidenceFile, request: SignatureRequest): Promise<SignatureState> {
  if ("absent" in file) return { standing: "absent", message: "" };
  if ("refused" in file) return { standing: "refused", message: file.refused };
  const { statement, signer, keys, lapsedKeys } = request;
  const verdict = await verifySignature(file.text, { statement, signer, keys, lapsedKeys });
  return verdict.good
    ? { standing: "good", message: verdict.fingerprint }
    : { standing: "refused", message: verdict.message };
}
