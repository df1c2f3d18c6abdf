import { z } from "zod";
import { readingChoiceSchema } from "../../../../../lib/schema/reading.ts";
import { readAgain } from "../../../../_jobs/read-again.ts";
import { readingAnew } from "../../../_http/reading-anew.ts";

/** How files of the import are to be read, by their names; the others are read as before. */
const body = z.object({ reading: z.record(z.string(), readingChoiceSchema) });

/** Reads the files of a waiting import once more. */
export const POST = readingAnew(body, (store, importId, { reading, ...act }, control) =>
  readAgain(store, importId, { ...act, choices: reading }, control),
);
