/** Writes the sample shops again: `npx node samples/make/make.ts`. The same bytes come out each time. */
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { writeBench } from "./bench.ts";
import { writeClean } from "./clean.ts";
import { SampleFolder } from "./write.ts";

const samples = dirname(dirname(fileURLToPath(import.meta.url)));
writeClean(new SampleFolder(join(samples, "clean"), /^(run |entry .* (inspect|close) )/u));
writeBench(new SampleFolder(join(samples, "bench")));
