import { z } from "zod";
import { testDraftSchema } from "../../../../lib/schema/test-draft.ts";
import { reopenTestSheet } from "../../../_jobs/send-test-sheet.ts";
import { answer, jsonBody } from "../../_http/answers.ts";
import { writing } from "../../_http/writing.ts";

const askedSchema = z.object({ id: testDraftSchema.shape.id });

/**
 * Whether a sheet that was sent without an answer arrived: `{ "import": id }`, or null, and then no sending of this id is taken
 * any more, so that whoever entered it can change it and send it by another.
 */
export const POST = (request: Request) =>
  writing(request, async ({ store }) => {
    const asked = await jsonBody(request, askedSchema);
    if (!asked.ok) return asked.response;
    return answer({ import: await reopenTestSheet(store, asked.value.id) });
  });
