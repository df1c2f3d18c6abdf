import { planCalendarOf } from "@/app/_jobs/plan-papers.ts";
import { jobCardAddress } from "@/app/_ui/plan-papers/address.ts";
import { answered, refusal } from "@/app/api/_http/answers.ts";
import { askedAt } from "@/app/api/_http/asked-at.ts";
import { calendarFile } from "@/app/api/_http/calendar.ts";
import { appStore } from "@/db/app-store.ts";
import { depotOverviews } from "@/db/depot-overview.ts";

interface Context {
  readonly params: Promise<{ readonly file: string }>;
}

const ending = ".ics";

/** The bookings of one depot as a calendar, by the depot's name and `.ics`. */
export const GET = (request: Request, { params }: Context) =>
  answered(async () => {
    const { file } = await params;
    const store = await appStore();
    const depot = (await depotOverviews(store)).find((one) => `${one.depot}${ending}` === file)?.depot;
    if (depot === undefined) return refusal(404, "No depot of this name is on the books.");
    const cardOf: typeof jobCardAddress = (...of) => askedAt(request) + jobCardAddress(...of);
    return calendarFile(await planCalendarOf(store, new Date(), { depot, cardOf }), depot);
  });
