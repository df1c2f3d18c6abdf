import type { Metadata } from "next";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { type AddressParts, compareAddress, readCompareAddress } from "@/app/_ui/compare/address.ts";
import { CompareChart } from "@/app/_ui/compare/compare-chart.tsx";
import { CompareForm } from "@/app/_ui/compare/compare-form.tsx";
import { CompareNav } from "@/app/_ui/compare/compare-nav.tsx";
import { measureNames } from "@/app/_ui/compare/compare-words.ts";
import { comparisonOf } from "@/app/_ui/compare/comparison-of.ts";
import { NothingToCompare } from "@/app/_ui/compare/nothing-to-compare.tsx";
import { StandOutLinks } from "@/app/_ui/compare/stand-out-links.tsx";
import { compareFinding } from "@/app/_ui/compare/standing-words.ts";
import { StandingsTable } from "@/app/_ui/compare/standings-table.tsx";
import { Terms } from "@/app/_ui/terms.tsx";
import { viewerFormats } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { courseUnits, sisterCourses } from "@/db/unit-courses.ts";
import { listWords } from "@/lib/wording.ts";
import "@/app/_ui/compare/compare.css";

export const metadata: Metadata = { title: "Compare" };

/** So many sisters are drawn one by one, and so many units named to choose from. */
const mostSisters = 40;
const mostNamed = 200;

export default async function ComparePage({ searchParams }: { readonly searchParams: Promise<AddressParts> }) {
  const view = readCompareAddress(await searchParams);
  const [store, f] = await Promise.all([appStore(), viewerFormats()]);
  const { models, of, sisters } = await comparisonOf(store, view);
  if (of === null) return <NothingToCompare here="/compare" />;

  const drawn = { ...view, units: sisters.map((course) => course.unit) };
  const unknown = view.units.filter((unit) => !drawn.units.includes(unit));
  const names = of.units > mostNamed ? [] : await courseUnits(store, of);
  const others = of.units > mostSisters ? [] : await sisterCourses(store, of, names);
  const standings = drawn.units.flatMap((unit) => of.standings.find((s) => s.unit === unit) ?? []);
  return (
    <div className="page">
      <div>
        <CompareNav here="/compare" />
        <h1 className="finding">{compareFinding(f, of, standings)}</h1>
        <Terms of={["level", "rate", "baseline", "wear-life"]} />
      </div>
      <CompareForm models={models.filter((m) => m.measure === of.measure)} of={of} view={drawn} units={names} />
      {unknown.length > 0 && (
        <p className="caution">
          {listWords(unknown)}: no {of.modelName} with a {measureNames[of.measure].toLowerCase()} test.{" "}
          <AppLink href={compareAddress(drawn)}>Go on without</AppLink>
        </p>
      )}
      <CompareChart f={f} of={of} view={drawn} chosen={sisters} sisters={others} />
      <StandingsTable f={f} of={of} view={drawn} />
      <StandOutLinks f={f} models={models} />
    </div>
  );
}
