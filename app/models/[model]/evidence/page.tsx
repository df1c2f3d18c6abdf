import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { keptCauseCounts } from "@/app/_jobs/kept-causes.ts";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { callsAddress } from "@/app/_ui/causes/address.ts";
import { modelAddress } from "@/app/_ui/models/address.ts";
import { EvidenceDesk, type OfferedFinding } from "@/app/_ui/models/evidence-desk.client.tsx";
import { EvidenceTable, SharesTable } from "@/app/_ui/models/evidence-table.tsx";
import { MakerFirst } from "@/app/_ui/models/maker-first.tsx";
import { draftOf } from "@/app/_ui/models/model-draft.ts";
import { NameGate } from "@/app/_ui/name-gate.tsx";
import { SavedNote } from "@/app/_ui/saved-note.tsx";
import { Sheet } from "@/app/_ui/sheet.tsx";
import { Terms } from "@/app/_ui/terms.tsx";
import { nameInAddress } from "@/app/_ui/unit-address.ts";
import { viewerFormats, viewerName } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { standingModel } from "@/db/engine-models.ts";
import { startingWeight } from "@/lib/cause/counts.ts";
import { evidence, evidenceGroups } from "@/lib/cause/evidence.ts";
import { evidenceTitle } from "@/lib/cause/evidence-titles.ts";
import { type CauseTable, tableFor } from "@/lib/cause/table.ts";
import { causeLabel } from "@/lib/cause/words.ts";
import { type Cause, causes } from "@/lib/schema/words.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { sentenceWords } from "@/lib/wording.ts";
import "@/app/_ui/models/models.css";

interface Props {
  readonly params: Promise<{ readonly model: string }>;
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: `Evidence of ${(await params).model}` };
}

const byCause = <T,>(of: (cause: Cause, place: number) => T) =>
  Object.fromEntries(causes.map((cause, i) => [cause, of(cause, i)])) as Record<Cause, T>;

/** What the form offers: every finding by subject, with what `table` says of it. */
const offeredOf = ({ rows }: CauseTable, f: Formats) =>
  evidenceGroups.map(({ title, ids }) => ({
    title,
    findings: ids.map(
      (id): OfferedFinding => ({
        id,
        title: sentenceWords(evidenceTitle(id)),
        holds: byCause((_, i) => f.percent(100 * (rows[id].likelihoods[i] as number))),
      }),
    ),
  }));

const stripDownWords = (f: Formats, cases: number): string =>
  cases === 0 ? "no strip-down" : `${f.number(cases)} ${cases === 1 ? "strip-down" : "strip-downs"}`;

export default async function ModelEvidencePage({ params, searchParams }: Props) {
  const id = nameInAddress((await params).model);
  const store = await appStore();
  const model = id === null ? null : await standingModel(store, id);
  if (model === null) notFound();
  const [counts, name, f, asked] = await Promise.all([
    keptCauseCounts(store, model),
    viewerName(),
    viewerFormats(),
    searchParams,
  ]);
  const saved = [asked["saved"] ?? []].flat()[0] ?? null;
  const own = Object.keys(model.evidence ?? {}).length;
  return (
    <div className="page">
      <p className="no-print">
        <AppLink href={modelAddress(model.id)}>Engine model {model.id}</AppLink>
      </p>
      <h1 className="finding">
        What each finding says of the causes in {model.id}: {own === 0 ? "none" : f.number(own)} of{" "}
        {f.number(Object.keys(evidence).length)} findings {own === 1 ? "has a value" : "have values"} of its own,
        {model.causeShares === undefined ? " " : " its causes shares of their own, "}
        {stripDownWords(f, counts.cases)} counted.
      </h1>
      <Terms of={["strip-down-finding", "top-end", "bottom-end", "leakage"]} />
      {saved !== null && <SavedNote store={store} importId={saved} f={f} />}
      <MakerFirst aircraft={model.aircraft} />
      <p className="second">
        A finding weighs by how often it is seen under one cause and how seldom under the others. Every value starts
        with the weight of {startingWeight} strip-downs, wherever it is from; each strip-down that tells what was found
        counts one more, so that what several agree on comes to outweigh it.{" "}
        <AppLink href={callsAddress(model.id)}>How often its calls were right</AppLink>
      </p>
      <Sheet
        title="Change shares or a finding for this model"
        note="you see which units would change band before anything is kept"
      >
        <NameGate name={name}>
          <EvidenceDesk
            // What was kept is what the form begins with again.
            key={JSON.stringify([model.evidence ?? null, model.causeShares ?? null])}
            draft={draftOf(model)}
            seen={model}
            // What would hold without values of its own.
            groups={offeredOf(tableFor({}, counts), f)}
            shares={byCause((_, i) => f.percent(100 * (tableFor({}, counts).causePriors[i] as number)))}
            causeNames={byCause(causeLabel)}
            startingWeight={startingWeight}
            name={name ?? ""}
          />
        </NameGate>
      </Sheet>
      <SharesTable model={model} table={tableFor(model, counts)} f={f} />
      <EvidenceTable model={model} table={tableFor(model, counts)} f={f} />
    </div>
  );
}
