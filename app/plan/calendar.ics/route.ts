import { planCalendarOf } from "@/app/_jobs/plan-papers.ts";
import { jobCardAddress } from "@/app/_ui/plan-papers/address.ts";
import { answered } from "@/app/api/_http/answers.ts";
import { askedAt } from "@/app/api/_http/asked-at.ts";
import { calendarFile } from "@/app/api/_http/calendar.ts";
import { appStore } from "@/db/app-store.ts";

/** The bookings of all depots as a calendar. */
export const GET = (request: Request) =>
  answered(async () => {
    const cardOf: typeof jobCardAddress = (...of) => askedAt(request) + jobCardAddress(...of);
    return calendarFile(await planCalendarOf(await appStore(), new Date(), { depot: null, cardOf }), "plan");
  });
