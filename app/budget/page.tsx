import type { Metadata } from "next";
import { askForMoney, moneyStanding } from "@/app/_jobs/money-upkeep.ts";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import {
  budgetAddress,
  readBudgetAddress,
  reportAddress,
  understoodOfBudget,
  whatIfAddress,
} from "@/app/_ui/budget/address.ts";
import { BarsSheet } from "@/app/_ui/budget/bars-sheet.tsx";
import { BridgeSheet } from "@/app/_ui/budget/bridge-sheet.tsx";
import { bridgeNow, budgetNow, whyNoBridge } from "@/app/_ui/budget/budget-now.ts";
import { holdWords, movedWords } from "@/app/_ui/budget/budget-words.ts";
import { FrozenSheet } from "@/app/_ui/budget/frozen-sheet.tsx";
import { budgetStandingWords, NoBudget } from "@/app/_ui/budget/no-budget.tsx";
import { SixFigures } from "@/app/_ui/budget/six-figures.tsx";
import { SpentSheet } from "@/app/_ui/budget/spent-sheet.tsx";
import { SumSheet } from "@/app/_ui/budget/sum-sheet.tsx";
import { whereOf } from "@/app/_ui/budget/where.ts";
import { WhereSheet } from "@/app/_ui/budget/where-sheet.tsx";
import { barsOf } from "@/app/_ui/budget/year-told.ts";
import type { AddressParts } from "@/app/_ui/compare/address.ts";
import { LookAgain } from "@/app/_ui/look-again.client.tsx";
import { NotUnderstood, notUnderstoodWords } from "@/app/_ui/not-understood.tsx";
import { viewerFormats, viewerName } from "@/app/_ui/viewer.ts";
import { whenWords } from "@/app/_ui/when.ts";
import { appStore } from "@/db/app-store.ts";
import { unitNames } from "@/db/assessments.ts";
import type { FrozenBudget } from "@/db/budgets.ts";
import { readSettings } from "@/db/settings.ts";
import "@/app/_ui/budget/budget.css";

export const metadata: Metadata = { title: "Budget" };

export default async function BudgetPage({ searchParams }: { readonly searchParams: Promise<AddressParts> }) {
  const asked = await searchParams;
  const view = readBudgetAddress(asked);
  const [store, f, viewer] = await Promise.all([appStore(), viewerFormats(), viewerName()]);
  const now = new Date();
  askForMoney(store, now);
  const [kept, standing, settings, units] = await Promise.all([
    budgetNow(store, view),
    moneyStanding(store, now),
    readSettings(store),
    unitNames(store),
  ]);
  const when = (instant: Date) => whenWords(f, settings.timeZone, instant.toISOString());
  if (kept === null || units.length === 0)
    return <NoBudget standing={standing} hasUnits={units.length > 0} when={when} />;
  const { row, told, frozen, was } = kept;
  const { beside, isSoon } = budgetStandingWords(standing, when);
  const bridge = bridgeNow(store, kept);
  const whyNone = whyNoBridge(kept, bridge);
  const isBridged = bridge !== null && "bridge" in bridge && typeof bridge.bridge !== "string";
  const frozenName = ({ id, name, asOf }: Pick<FrozenBudget, "id" | "name" | "asOf">) => ({
    id,
    name: name ?? "",
    asOf,
  });
  const { currency } = told;
  return (
    <div className="page">
      <div className="budget-head">
        <div>
          <h1 className="finding">
            {holdWords(f, told)}
            {isBridged && was !== null && typeof bridge.bridge !== "string" && (
              <> {movedWords(f, bridge.bridge, { currency, ...frozenName(was.row) })}</>
            )}
          </h1>
          <p className="second">
            As of {f.date(told.asOf)}, {currency === "XXX" ? "" : `in ${currency}, `}
            {f.number(row.draws)} draws under the plan in force.
            {was === null && " No budget is frozen yet that this one could be told against."} {whyNone}{" "}
            {isSoon && <LookAgain />}
            {beside !== "" && <strong>{beside}</strong>}
          </p>
        </div>
        <nav className="budget-ways no-print" aria-label="Beside the budget">
          <AppLink href={whatIfAddress} variant="filled">
            What if
          </AppLink>
          <AppLink href={reportAddress} variant="button">
            Report to print
          </AppLink>
        </nav>
      </div>
      <NotUnderstood
        says={notUnderstoodWords(
          asked,
          understoodOfBudget(row.document.fiscalYears, frozen),
          "the budget is shown as without it",
        )}
      />
      <SixFigures f={f} told={told} />
      <nav className="segments no-print budget-years" aria-label="Fiscal year">
        {row.document.fiscalYears.map(({ name }) => (
          <AppLink
            key={name}
            href={budgetAddress({ ...view, year: name === row.document.fiscalYears[0]?.name ? null : name })}
            variant="bare"
            {...(name === told.drawn.name ? { "aria-current": "page" as const } : {})}
          >
            {name}
          </AppLink>
        ))}
      </nav>
      <div className="budget-sheets">
        <BarsSheet f={f} bars={barsOf(row.document, told, view.span)} view={view} currency={currency} />
        <SumSheet f={f} told={told} frozen={was?.told ?? null} />
        {bridge !== null && was !== null && (
          <BridgeSheet
            f={f}
            view={view}
            currency={currency}
            frozen={frozenName(was.row)}
            others={frozen.map(frozenName)}
            told={bridge}
            whyNone={whyNone}
          />
        )}
        <SpentSheet f={f} told={told} view={view} frozen={was?.told ?? null} />
      </div>
      <WhereSheet f={f} told={told} where={whereOf(told, was?.told ?? null, view.by)} view={view} />
      <FrozenSheet
        f={f}
        budget={row.id}
        frozen={frozen}
        viewer={viewer}
        when={(instant) => whenWords(f, settings.timeZone, instant)}
      />
    </div>
  );
}
