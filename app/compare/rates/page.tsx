import type { Metadata } from "next";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { CompareNav } from "@/app/_ui/compare/compare-nav.tsx";
import { measureNames } from "@/app/_ui/compare/compare-words.ts";
import { NothingToCompare } from "@/app/_ui/compare/nothing-to-compare.tsx";
import {
  rateFigureNames,
  ratesAddress,
  ratesFileAddress,
  ratesFinding,
  readRatesAddress,
} from "@/app/_ui/compare/rate-words.ts";
import { RatesSheet } from "@/app/_ui/compare/rates-sheet.tsx";
import { CsvLink } from "@/app/_ui/csv-link.tsx";
import { EmptyState } from "@/app/_ui/empty-state.tsx";
import { Sheet } from "@/app/_ui/sheet.tsx";
import { Terms } from "@/app/_ui/terms.tsx";
import { viewerFormats } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { comparedModels, modelRates } from "@/db/unit-courses.ts";
import { judgedMeasures, meterUnits } from "@/lib/schema/words.ts";
import { sentenceWords } from "@/lib/wording.ts";
import "@/app/_ui/compare/compare.css";

export const metadata: Metadata = { title: "Rates" };

interface Props {
  readonly searchParams: Promise<Readonly<Record<string, string | readonly string[] | undefined>>>;
}

export default async function RatesPage({ searchParams }: Props) {
  const view = readRatesAddress(await searchParams);
  const [store, f] = await Promise.all([appStore(), viewerFormats()]);
  const [all, any] = await Promise.all([modelRates(store, view.measure), comparedModels(store)]);
  if (any.length === 0) return <NothingToCompare here="/compare/rates" />;
  const models = all.filter((model) => model.rates[view.of].length > 0);
  const without = all.filter((model) => model.rates[view.of].length === 0).map((model) => model.modelName);
  return (
    <div className="page">
      <div>
        <CompareNav here="/compare/rates" />
        <h1 className="finding">{ratesFinding(f, models, view)}</h1>
        <Terms of={["rate", "leakage", "dry-compression"]} />
      </div>
      <div className="compare-choices no-print">
        <nav className="segments" aria-label="Test">
          {judgedMeasures.map((measure) => (
            <Choice key={measure} href={ratesAddress({ ...view, measure })} chosen={measure === view.measure}>
              {measureNames[measure]}
            </Choice>
          ))}
        </nav>
        <nav className="segments" aria-label="Of each engine">
          {(["middle", "weakest"] as const).map((of) => (
            <Choice key={of} href={ratesAddress({ ...view, of })} chosen={of === view.of}>
              {sentenceWords(rateFigureNames[of])}
            </Choice>
          ))}
        </nav>
        {models.length > 0 && <CsvLink href={ratesFileAddress(view)} of="rates by model and depot" />}
      </div>
      {models.length === 0 && (
        <Sheet label="Rates">
          <EmptyState says="No engine has three usable tests of this kind yet, so none has a rate of its own." />
        </Sheet>
      )}
      {meterUnits.map((meterUnit) => {
        const some = models.filter((model) => model.meterUnit === meterUnit);
        return some.length === 0 ? null : (
          <RatesSheet key={meterUnit} f={f} models={some} meterUnit={meterUnit} view={view} />
        );
      })}
      <p className="second compare-foot">
        Depots differ in work, air and the age of their engines: a difference between them is a question, not a verdict.
        {without.length > 0 && ` Without a rate so far: ${[...new Set(without)].join(", ")}.`}
      </p>
    </div>
  );
}

function Choice(props: { readonly href: string; readonly chosen: boolean; readonly children: string }) {
  return (
    <AppLink
      href={props.href}
      variant="bare"
      scroll={false}
      {...(props.chosen ? { "aria-current": "true" as const } : {})}
    >
      {props.children}
    </AppLink>
  );
}
