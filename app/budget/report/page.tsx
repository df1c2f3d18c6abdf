import type { Metadata } from "next";
import { askForMoney, moneyStanding } from "@/app/_jobs/money-upkeep.ts";
import { planNow } from "@/app/_jobs/plan-now.ts";
import { askForRecord } from "@/app/_jobs/track-record-upkeep.ts";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { readBudgetAddress, understoodOfBudget } from "@/app/_ui/budget/address.ts";
import { Bridge } from "@/app/_ui/budget/bridge-sheet.tsx";
import { bridgeNow, budgetNow, whyNoBridge } from "@/app/_ui/budget/budget-now.ts";
import { holdWords, movedWords } from "@/app/_ui/budget/budget-words.ts";
import { NoBudget } from "@/app/_ui/budget/no-budget.tsx";
import { MoneyPage, PlanPage } from "@/app/_ui/budget/report-pages.tsx";
import { barsOf } from "@/app/_ui/budget/year-told.ts";
import type { AddressParts } from "@/app/_ui/compare/address.ts";
import { FollowJob } from "@/app/_ui/import/follow-job.client.tsx";
import { NotUnderstood, notUnderstoodWords } from "@/app/_ui/not-understood.tsx";
import { PrintButton } from "@/app/_ui/print-button.client.tsx";
import { viewerFormats } from "@/app/_ui/viewer.ts";
import { whenWords } from "@/app/_ui/when.ts";
import { appStore } from "@/db/app-store.ts";
import { unitNames } from "@/db/assessments.ts";
import { readSettings } from "@/db/settings.ts";
import { keptTrackRecord } from "@/db/track-record.ts";
import "@/app/_ui/budget/budget.css";

export const metadata: Metadata = { title: "Budget report" };

/** Two pages to print: the money; the plan, the units that matter most, and how good past forecasts were. */
export default async function ReportPage({ searchParams }: { readonly searchParams: Promise<AddressParts> }) {
  const asked = await searchParams;
  const view = readBudgetAddress(asked);
  const [store, f] = await Promise.all([appStore(), viewerFormats()]);
  const now = new Date();
  askForMoney(store, now);
  askForRecord(store, now);
  const [kept, standing, settings, units, plan, record] = await Promise.all([
    budgetNow(store, view),
    moneyStanding(store, now),
    readSettings(store),
    unitNames(store),
    planNow(store, now),
    keptTrackRecord(store),
  ]);
  if (kept === null || units.length === 0) {
    const when = (instant: Date) => whenWords(f, settings.timeZone, instant.toISOString());
    return <NoBudget standing={standing} hasUnits={units.length > 0} when={when} />;
  }
  const { row, told, was, frozen } = kept;
  const { currency, asOf } = told;
  const bridge = bridgeNow(store, kept);
  const foot = `As of ${f.date(asOf)}; ${f.number(row.draws)} draws from seed ${row.seed}; made ${whenWords(f, settings.timeZone, row.madeAt)}.`;
  return (
    <div className="page">
      <nav aria-label="Way back" className="budget-ways no-print">
        <AppLink href="/budget">The budget</AppLink>
        <PrintButton />
      </nav>
      <div className="no-print">
        <NotUnderstood
          says={notUnderstoodWords(
            asked,
            understoodOfBudget(row.document.fiscalYears, frozen),
            "the report is shown as without it",
          )}
        />
      </div>
      <MoneyPage
        f={f}
        finding={holdWords(f, told)}
        second={
          bridge !== null && was !== null && "bridge" in bridge && typeof bridge.bridge !== "string"
            ? movedWords(f, bridge.bridge, { currency, name: was.row.name ?? "", asOf: was.row.asOf })
            : `As of ${f.date(asOf)}, under the plan in force.`
        }
        told={told}
        bars={barsOf(row.document, told, "month")}
        moved={
          bridge === null ? (
            <p>No budget is frozen yet that this one could be told against.</p>
          ) : "job" in bridge ? (
            <FollowJob job={bridge.job} />
          ) : typeof bridge.bridge === "string" ? (
            <p>{whyNoBridge(kept, bridge)}</p>
          ) : (
            <Bridge f={f} bridge={bridge.bridge} currency={currency} />
          )
        }
        foot={foot}
      />
      <PlanPage f={f} told={told} bookings={plan?.bookings ?? []} record={record?.record ?? null} foot={foot} />
    </div>
  );
}
