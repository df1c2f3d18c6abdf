import { z } from "zod";
import { longestText } from "../../../../../lib/schema/cells.ts";
import { putRight } from "../../../../_jobs/put-right.ts";
import { readingAnew } from "../../../_http/reading-anew.ts";

/** More than anybody types before the file is read anew. */
const mostCells = 10_000;

const cell = z.object({ issue: z.number().int().positive(), value: z.string().max(longestText) });
const body = cell.extend({ also: z.array(cell).max(mostCells).optional() });

/** Reads the cell of a refused row as something else, and further such cells with it. */
export const POST = readingAnew(body, putRight);
