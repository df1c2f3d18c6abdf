import { z } from "zod";
import { takeProposal } from "../../../../_jobs/take-proposal.ts";
import { readingAnew } from "../../../_http/reading-anew.ts";

const body = z.object({ issue: z.number().int().positive(), proposal: z.number().int().min(0) });

/** Takes a proposal of an issue. */
export const POST = readingAnew(body, takeProposal);
