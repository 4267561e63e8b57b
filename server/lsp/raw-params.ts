/** Parameters that are JSON already: written into the stream as they are, since building and writing thousands of objects costs more than checking. */
import type { Message } from "vscode-languageserver/node";

export class RawParams {
  readonly json: string;

  constructor(json: string) {
    this.json = json;
  }

  /** For a trace, which writes messages as JSON itself. */
  toJSON(): unknown {
    return JSON.parse(this.json);
  }
}

/** The encoder of messages: as usual, and raw parameters without a second pass. */
export const rawEncoder = {
  name: "application/json",
  async encode(message: Message): Promise<Uint8Array> {
    const { method, params } = message as { method?: string; params?: unknown };
    if (method === undefined || !(params instanceof RawParams)) return Buffer.from(JSON.stringify(message), "utf8");
    return Buffer.from(`{"jsonrpc":"2.0","method":${JSON.stringify(method)},"params":${params.json}}`, "utf8");
  },
};
