import type { UnitReport } from "@/lib/schema/report.ts";

/** The names in a report's sentences that people typed; no viewer's format may touch them. */
export function typedNames(report: UnitReport): readonly string[] {
  const { assessment, model, tests } = report;
  const names = [
    assessment.unit,
    assessment.engineSerial,
    report.depot,
    model.id,
    model.name ?? null,
    ...assessment.warnings.flatMap(serialsIn),
    ...tests.flatMap(({ unit, depot, instrument, testedBy, file }) => [unit, depot, instrument, testedBy, file]),
  ];
  return [...new Set(names.flatMap((name) => name || []))];
}

/** Warnings name engines that the report holds nothing else of: "The test of 3 May 2026 names engine 4.108, where …". */
const serialsIn = (warning: string): readonly string[] =>
  [...warning.matchAll(/\b[Ee]ngine (\S+?)(?=[,.:]?(?:\s|$))/gu)].flatMap(([, serial]) => serial ?? []);
