import type { Metadata } from "next";
import { isPlanDue } from "@/app/_jobs/budget-anew.ts";
import { runningJobs } from "@/app/_jobs/job-registry.ts";
import { askForMoney, moneyStanding } from "@/app/_jobs/money-upkeep.ts";
import { droppedNow } from "@/app/_jobs/plan-dropped.ts";
import { planNow } from "@/app/_jobs/plan-now.ts";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import type { AddressParts } from "@/app/_ui/compare/address.ts";
import { NameGate } from "@/app/_ui/name-gate.tsx";
import { NotUnderstood, notUnderstoodWords } from "@/app/_ui/not-understood.tsx";
import { planAddress, readPlanAddress, spans, understoodOfPlan } from "@/app/_ui/plan/address.ts";
import { PlanAgenda } from "@/app/_ui/plan/agenda.tsx";
import { Behind } from "@/app/_ui/plan/behind.tsx";
import { PlanBoard } from "@/app/_ui/plan/board.client.tsx";
import { boardData } from "@/app/_ui/plan/board-data.ts";
import { chosenOf, movedBooking } from "@/app/_ui/plan/chosen-of.ts";
import { ChosenSheet } from "@/app/_ui/plan/chosen-sheet.tsx";
import { ExpectedCost } from "@/app/_ui/plan/expected-cost.tsx";
import { madeWhenWords } from "@/app/_ui/plan/made-when.ts";
import { NoPlan } from "@/app/_ui/plan/no-plan.tsx";
import { OffBestSheet } from "@/app/_ui/plan/off-best-sheet.tsx";
import { MadeSheet, OrderSheet, RestSheet } from "@/app/_ui/plan/plan-lists.tsx";
import { planFinding, qualityWords, troubleLines } from "@/app/_ui/plan/plan-words.ts";
import { Replan } from "@/app/_ui/plan/replan.client.tsx";
import { sinceWords } from "@/app/_ui/plan/since-words.ts";
import { WaitCurve } from "@/app/_ui/plan/wait-curve.tsx";
import { whyNotPlanned } from "@/app/_ui/plan/why-not.ts";
import { PlanPaperLinks } from "@/app/_ui/plan-papers/links.tsx";
import { Sheet } from "@/app/_ui/sheet.tsx";
import { Terms } from "@/app/_ui/terms.tsx";
import { ScrollBox } from "@/app/_ui/unit/scroll-box.tsx";
import { viewerFormats, viewerName } from "@/app/_ui/viewer.ts";
import { whenWords } from "@/app/_ui/when.ts";
import { appStore } from "@/db/app-store.ts";
import { unitNames } from "@/db/assessments.ts";
import { readSettings } from "@/db/settings.ts";
import "@/app/_ui/plan/plan.css";

export const metadata: Metadata = { title: "Plan" };

export default async function PlanPage({ searchParams }: { readonly searchParams: Promise<AddressParts> }) {
  const asked = await searchParams;
  const view = readPlanAddress(asked);
  const now = new Date();
  const [store, f, viewer] = await Promise.all([appStore(), viewerFormats(), viewerName()]);
  askForMoney(store, now);
  const [told, settings, units, isOwnPlan, standing] = await Promise.all([
    planNow(store, now),
    readSettings(store),
    unitNames(store),
    isPlanDue(store, now),
    moneyStanding(store, now),
  ]);
  const when = (instant: string) => whenWords(f, settings.timeZone, instant);
  // A plan of a fleet that is gone says nothing any more.
  if (told === null || units.length === 0) {
    return <NoPlan title="plan" standing={standing} when={(at) => when(at.toISOString())} />;
  }
  const { row, bookings, asOf, overloads, impossible, changed, isBehind, isChosenSince, limits, made } = told;
  const { plan, workshop } = row;
  const [chosen, dropped] = await Promise.all([chosenOf(store, told, view), droppedNow(store, told)]);
  const board = boardData(f, {
    plan,
    bookings,
    workshop,
    view,
    asOf,
    moved: chosen === null ? null : movedBooking(chosen, view),
  });
  const trouble = troubleLines(f, { plan, overloads, impossible, asOf });
  const running = runningJobs().find(({ kind }) => kind === "plan")?.id ?? null;
  return (
    <div className="page">
      <div className="plan-head">
        <div>
          <h1 className="finding">{planFinding(f, { plan, bookings, overloads, asOf })}</h1>
          <p className="second">
            Plan as of {f.date(row.asOf)}, made {when(row.madeAt)} by {row.by}. {changed > 0 && "As it was made: "}
            {qualityWords(f, plan)}
          </p>
          <Behind
            since={sinceWords(f, { changed, isBehind, isChosenSince })}
            made={
              isOwnPlan ? madeWhenWords(standing, { made: "made anew", when: (at) => when(at.toISOString()) }) : null
            }
          />
          <details className="plan-holds no-print">
            <summary>What expected cost holds</summary>
            <ExpectedCost />
          </details>
          <Terms of={["top-end", "bottom-end", "crossing"]} />
        </div>
        <div className="plan-acts no-print">
          <NameGate name={viewer} why="To make the plan anew, give your name: it is kept with the plan.">
            <Replan
              label={told.choices.length > 0 ? "Replan round the pins" : "Replan"}
              isUrgent={changed > 0 || isBehind || isChosenSince}
              running={running}
            />
          </NameGate>
          <AppLink href="/plan/compare" variant="button">
            Compare plans
          </AppLink>
        </div>
      </div>
      <NotUnderstood says={notUnderstoodWords(asked, understoodOfPlan(asked), "the plan is shown as without it")} />
      {trouble.length > 0 && (
        <ul className="plan-trouble">
          {trouble.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
      <Sheet
        title="Weeks and depots"
        className="plan-weeks-sheet"
        long
        controls={
          <nav className="plan-spans no-print" aria-label="Weeks shown">
            {spans
              .filter((span) => span === spans[0] || span <= plan.weeks || span === view.span)
              .map((span) => (
                <AppLink
                  key={span}
                  href={planAddress({ ...view, span })}
                  scroll={false}
                  aria-current={span === view.span || undefined}
                >
                  {span} weeks
                </AppLink>
              ))}
          </nav>
        }
      >
        <ul className="plan-key" aria-label="Key">
          <li data-kind="top">top-end</li>
          <li data-kind="bottom">bottom-end, both or exchange</li>
          <li data-kind="other">other work</li>
          <li data-kind="load">hours booked, under the hours there</li>
          <li data-kind="closed">closed</li>
          <li data-kind="peak">peak</li>
          <li>per cent: how sure its class is, if a limit is met within the plan</li>
        </ul>
        <svg className="ink-defs" width="0" height="0" aria-hidden="true">
          <defs>
            <pattern id="plan-hatch" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
              <line x1="0" x2="0" y1="0" y2="7" stroke="var(--closed)" strokeWidth="2" />
            </pattern>
          </defs>
        </svg>
        <div className="plan-wide">
          <ScrollBox name="Board of weeks and depots">
            <PlanBoard board={board} view={view} />
          </ScrollBox>
        </div>
        <div className="plan-narrow">
          {bookings.length === 0 ? (
            <p className="second">Nothing is booked.</p>
          ) : (
            <PlanAgenda f={f} plan={plan} bookings={bookings} view={view} asOf={asOf} />
          )}
        </div>
      </Sheet>
      {view.unit !== null && chosen === null && <p role="status">{await whyNotPlanned(store, row, view.unit, f)}</p>}
      {chosen !== null && (
        <ChosenSheet
          f={f}
          chosen={chosen}
          view={view}
          currency={plan.currency}
          firstMonday={plan.firstMonday}
          workshop={workshop}
          plan={row.id}
          planAsOf={row.asOf}
          asOf={asOf}
          viewer={viewer}
        />
      )}
      <div className="plan-parts">
        {chosen !== null && (
          <WaitCurve
            f={f}
            unit={chosen.unit}
            weeks={chosen.weeks}
            left={chosen.left}
            firstMonday={plan.firstMonday}
            depotWeeks={
              plan.depots.find(({ depot }) => depot === chosen.booking?.depot)?.weeks ?? plan.depots[0]?.weeks ?? []
            }
            currency={plan.currency}
            booked={chosen.booking?.start ?? null}
            asked={view.to}
            asOf={asOf}
          />
        )}
        <OrderSheet f={f} bookings={bookings} asOf={asOf} />
        <OffBestSheet f={f} plan={plan} bookings={bookings} limits={limits} view={view} asOf={asOf} />
        <RestSheet f={f} plan={plan} view={view} asOf={asOf} dropped={dropped} />
        <Sheet
          title="Papers and files"
          note="what the plan hands on; a booking’s job card and quote are beside it when it is chosen"
          className="no-print"
        >
          <PlanPaperLinks depots={plan.depots.map(({ depot }) => depot)} />
        </Sheet>
        <MadeSheet f={f} made={made} currency={plan.currency} asOf={asOf} />
      </div>
    </div>
  );
}
