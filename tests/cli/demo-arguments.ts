import path from "node:path";
import { root } from "../../cli/setup/place.mjs";

/** Arguments of the commands that read files, for the demo fleet on its day. */
export const demoFile = (name: string): string => path.join(root, "demo-data", name);

const tests = ["lowmarsh", "midfell", "highcol", "aircraft", "pumps"].map((of) => demoFile(`tests-${of}.csv`));
const kinds = ["units", "depots", "repairs", "meters", "checks"] as const;

export const demoArguments: readonly string[] = [
  ...tests,
  "--models",
  demoFile("engine-models.json"),
  ...kinds.flatMap((kind) => [`--${kind}`, demoFile(`${kind}.csv`)]),
  "--as-of",
  "2026-08-31",
];
