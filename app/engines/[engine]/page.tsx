import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { EngineView } from "@/app/_ui/engines/engine-view.tsx";
import { stayNow } from "@/app/_ui/engines/engine-words.ts";
import { KnownNames } from "@/app/_ui/formats.client.tsx";
import { typedNames } from "@/app/_ui/unit/typed-names.ts";
import { nameInAddress } from "@/app/_ui/unit-address.ts";
import { viewerFormats } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { unitReport } from "@/db/assessments.ts";
import { engineOf } from "@/db/engines.ts";
import "@/app/_ui/unit/unit.css";
import "@/app/_ui/unit/unit-facts.css";

interface Props {
  readonly params: Promise<{ readonly engine: string }>;
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: `Engine ${(await params).engine}` };
}

export default async function EnginePage({ params, searchParams }: Props) {
  const key = nameInAddress((await params).engine);
  const store = await appStore();
  const engine = key === null ? null : await engineOf(store, key);
  if (engine === null) notFound();
  const now = stayNow(engine);
  // An engine in a unit is told by that unit's report, which runs on the engine's own wear meter.
  const [report, f, search] = await Promise.all([
    now === null ? engine.report : unitReport(store, now.unit),
    viewerFormats(),
    searchParams,
  ]);
  const names = report === null ? [] : typedNames(report);
  return (
    <KnownNames names={names}>
      <EngineView engine={engine} report={report} allTests={search["tests"] === "all"} f={f.knowing(names)} />
    </KnownNames>
  );
}
