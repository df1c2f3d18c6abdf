import { appStore } from "../../../../db/app-store.ts";
import { unitReport } from "../../../../db/assessments.ts";
import type { Assessment } from "../../../../lib/schema/assessment.ts";
import { answer, answered, refusal } from "../../_http/answers.ts";

/** The kept assessment of one unit, in the shape of the fleet's, with this unit alone. */
export const GET = (_request: Request, { params }: { readonly params: Promise<{ readonly unit: string }> }) =>
  answered(async () => {
    const report = await unitReport(await appStore(), (await params).unit);
    if (report === null) return refusal(404, "No unit goes by this number.");
    const assessment: Assessment = { schemaVersion: 1, asOf: report.asOf, units: [report.assessment] };
    return answer(assessment);
  });
