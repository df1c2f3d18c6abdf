import { knowsUnit } from "../../../db/assessments.ts";
import { testDraftSchema } from "../../../lib/schema/test-draft.ts";
import { JobError } from "../../_jobs/job-registry.ts";
import { sendTestSheet } from "../../_jobs/send-test-sheet.ts";
import { answer, jsonBody, refusal } from "../_http/answers.ts";
import { writing } from "../_http/writing.ts";

/**
 * Keeps a filled-in test sheet: `{ "import": id, "wasThere": false }`, 201; 200 where it had arrived before, and nothing was
 * added. 422 where it cannot be taken as it is.
 */
export const POST = (request: Request) =>
  writing(request, async ({ store, act }) => {
    const asked = await jsonBody(request, testDraftSchema);
    if (!asked.ok) return asked.response;
    if (!(await knowsUnit(store, asked.value.unit))) {
      return refusal(422, `No unit ${asked.value.unit} is on the books any more. Nothing was kept.`);
    }
    try {
      const sent = await sendTestSheet(store, asked.value, act);
      return answer(sent, sent.wasThere ? 200 : 201);
    } catch (error) {
      if (error instanceof JobError) return refusal(422, error.message);
      throw error;
    }
  });
