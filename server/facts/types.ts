/**
 * What the lines of a block say, as plain data: the vocabulary of every rule, total, feature and report.
 *
 * Nothing here holds a position in a file. A fact knows its line as the n-th line with content of its block (`at`), so that moving a block,
 * commenting, spacing or formatting lines and adding notes changes no fact; columns are worked out when something is shown.
 */
import type { AccountBlock, EngineBlock, JobBlock, WorkBlock } from "./record-types.ts";
import type {
  AlertBlock,
  BlockBase,
  BulletinBlock,
  EngineTypeBlock,
  InstrumentBlock,
  LimitsBlock,
  PersonBlock,
  RouteBlock,
  RunInBlock,
  ShopBlock,
  StandBlock,
  TaskBlock,
} from "./reference-types.ts";

export type * from "./fact.ts";
export type * from "./record-types.ts";
export type * from "./reference-types.ts";

export interface UnnamedBlock extends BlockBase {
  readonly kind: "unnamed" | "preface";
}

export type Block =
  | ShopBlock
  | PersonBlock
  | InstrumentBlock
  | StandBlock
  | EngineTypeBlock
  | LimitsBlock
  | RunInBlock
  | TaskBlock
  | BulletinBlock
  | RouteBlock
  | AlertBlock
  | EngineBlock
  | JobBlock
  | WorkBlock
  | AccountBlock
  | UnnamedBlock;
