import { z } from "zod";
import { longestText } from "../../../../../lib/schema/cells.ts";
import { putRight } from "../../../../_jobs/put-right.ts";
import { readingAnew } from "../../../_http/reading-anew.ts";

const body = z.object({ issue: z.number().int().positive(), value: z.string().max(longestText) });

/** Reads the cell of a refused row as something else. */
export const POST = readingAnew(body, putRight);
