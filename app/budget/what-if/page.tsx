import type { Metadata } from "next";
import { askForMoney, moneyStanding } from "@/app/_jobs/money-upkeep.ts";
import { reckoningOf, takeUp } from "@/app/_jobs/what-ifs.ts";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { budgetFileAddress } from "@/app/_ui/budget/address.ts";
import { withdrawWhatIf } from "@/app/_ui/budget/budget-actions.ts";
import { budgetNow } from "@/app/_ui/budget/budget-now.ts";
import { WithdrawForm } from "@/app/_ui/budget/freeze-form.client.tsx";
import { budgetStandingWords, NoBudget } from "@/app/_ui/budget/no-budget.tsx";
import { ReckonAgain, WhatIfDesk } from "@/app/_ui/budget/what-if-desk.client.tsx";
import { WhatIfTold } from "@/app/_ui/budget/what-if-told.tsx";
import type { AddressParts } from "@/app/_ui/compare/address.ts";
import { CsvLink } from "@/app/_ui/csv-link.tsx";
import { LookAgain } from "@/app/_ui/look-again.client.tsx";
import { NameGate } from "@/app/_ui/name-gate.tsx";
import { NotUnderstood, notUnderstoodWords } from "@/app/_ui/not-understood.tsx";
import { Sheet } from "@/app/_ui/sheet.tsx";
import { viewerFormats, viewerName } from "@/app/_ui/viewer.ts";
import { whenWords } from "@/app/_ui/when.ts";
import { appStore } from "@/db/app-store.ts";
import { unitNames } from "@/db/assessments.ts";
import { scenariosTold } from "@/db/scenarios.ts";
import { readSettings } from "@/db/settings.ts";
import "@/app/_ui/budget/budget.css";

export const metadata: Metadata = { title: "What if" };

/** What the budget would come to if something were otherwise: named, reckoned, set beside the base. */
export default async function WhatIfPage({ searchParams }: { readonly searchParams: Promise<AddressParts> }) {
  const asked = await searchParams;
  const [store, f, viewer] = await Promise.all([appStore(), viewerFormats(), viewerName()]);
  const now = new Date();
  askForMoney(store, now);
  const [kept, standing, settings, units, scenarios] = await Promise.all([
    budgetNow(store, { year: null, frozen: null }),
    moneyStanding(store, now),
    readSettings(store),
    unitNames(store),
    scenariosTold(store),
  ]);
  if (kept === null || units.length === 0) {
    const when = (instant: Date) => whenWords(f, settings.timeZone, instant.toISOString());
    return <NoBudget standing={standing} hasUnits={units.length > 0} when={when} />;
  }
  // What was asked before the program stopped is reckoned now, but for a budget that is about to be another one.
  if (standing.state === "current" || standing.state === "failed") {
    const unreckoned = scenarios.filter((one) => one.told === null).map(({ id }) => id);
    takeUp(store, unreckoned, { now });
  }
  const { beside, isSoon } = budgetStandingWords(standing, (instant) =>
    whenWords(f, settings.timeZone, instant.toISOString()),
  );
  const { row, told, head } = kept;
  const depots = told.drawn.byDepot.map(({ depot }) => depot);
  const when = (instant: string) => whenWords(f, settings.timeZone, instant);
  const reckoned = scenarios.filter((one) => one.told !== null).length;
  return (
    <div className="page">
      <div>
        <h1 className="finding">
          {scenarios.length === 0
            ? "What if repairs waited, workshops shrank or limits moved? Name a change, and see it beside the budget."
            : `${f.number(scenarios.length)} ${scenarios.length === 1 ? "what-if stands" : "what-ifs stand"} beside the budget of ${f.date(told.asOf)}.`}
        </h1>
        <p className="second">
          Both are drawn with the same random numbers, so what differs is the change and not chance.{" "}
          <AppLink href="/budget">The budget</AppLink> {isSoon && <LookAgain />}
          {beside !== "" && <strong>{beside}</strong>}
        </p>
      </div>
      <NotUnderstood says={notUnderstoodWords(asked, {}, "the page is shown as without it")} />
      <Sheet
        title="A new what-if"
        note="capacity, limits, use and engines have a plan of their own made, and the base too; pins stay"
      >
        <NameGate name={viewer} why="A what-if is kept with the name of the person who asked it.">
          <WhatIfDesk
            depots={depots}
            models={[...new Set(head.models.map(({ id }) => id))].toSorted()}
            month={told.asOf.slice(0, 7)}
          />
        </NameGate>
      </Sheet>
      {scenarios.length > 0 && (
        <Sheet
          title="Beside the base"
          note="small figures: more or less than the base; what was spent so far is in none of them"
          long
        >
          {scenarios.map((scenario) => (
            <WhatIfTold
              key={scenario.id}
              f={f}
              scenario={scenario}
              reckoning={reckoningOf(store, scenario.id)}
              isBehind={scenario.told !== null && scenario.told.basis !== row.basis}
              when={when}
            >
              {viewer !== null && (
                <div className="form-buttons">
                  <ReckonAgain id={scenario.id} name={scenario.name} />
                  <WithdrawForm id={scenario.id} name={scenario.name} action={withdrawWhatIf} />
                </div>
              )}
            </WhatIfTold>
          ))}
          {reckoned > 0 && (
            <div className="form-buttons">
              <CsvLink href={budgetFileAddress("scenarios")} of="what-ifs beside the base" isOneOfSeveral />
              <CsvLink href={budgetFileAddress("moves")} of="bookings that what-ifs move" isOneOfSeveral />
            </div>
          )}
        </Sheet>
      )}
    </div>
  );
}
