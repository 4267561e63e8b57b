/** The few calls on the disk that the command makes beyond reading records. */
export { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, statSync, writeFileSync } from "node:fs";
