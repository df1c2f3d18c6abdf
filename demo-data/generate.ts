import { writeFileSync } from "node:fs";
import path from "node:path";
import { demoFiles } from "./files.ts";
import { demoSeed } from "./plan.ts";

/** Writes the demo's files beside this program: `npm run demo-data`. */
for (const [name, text] of demoFiles(demoSeed)) writeFileSync(path.join(import.meta.dirname, name), text);
