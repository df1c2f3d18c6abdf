import type { Metadata } from "next";
import { connection } from "next/server";
import { runningJobs } from "@/app/_jobs/job-registry.ts";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { FirstSteps } from "@/app/_ui/first-run/first-steps.tsx";
import { ColumnHelp } from "@/app/_ui/import/column-help.tsx";
import { DemoButton } from "@/app/_ui/import/demo-button.client.tsx";
import { FileIntake } from "@/app/_ui/import/file-intake.client.tsx";
import { ImportList } from "@/app/_ui/import/import-list.tsx";
import { uploadLimits } from "@/app/_ui/import/limits.ts";
import { layoutsAddress } from "@/app/_ui/layouts/address.ts";
import { NameGate } from "@/app/_ui/name-gate.tsx";
import { Sheet } from "@/app/_ui/sheet.tsx";
import { TestCautions } from "@/app/_ui/test-cautions.tsx";
import { viewerFormats, viewerName } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { listImports } from "@/db/imports.ts";
import { type KnownSoFar, knownSoFar } from "@/db/known-so-far.ts";
import { readSettings } from "@/db/settings.ts";
import "@/app/_ui/import/import.css";

export const metadata: Metadata = { title: "Import" };

const importsListed = 50;

export default async function ImportPage() {
  // Nothing before the store tells that this page cannot be made ahead at build time.
  await connection();
  const store = await appStore();
  const [settings, imports, known, name, f] = await Promise.all([
    readSettings(store),
    listImports(store, { limit: importsListed }),
    knownSoFar(store),
    viewerName(),
    viewerFormats(),
  ]);
  const jobOf = (kind: string) => runningJobs().find((job) => job.kind === kind)?.id ?? null;
  return (
    <div className="page">
      <h1 className="finding">{findingOf(known)}</h1>
      {known.hasTests && settings.asOf !== null && (
        <p className="second">
          The fleet is told as of {f.date(settings.asOf)}, the date of the demo fleet: later tests are kept, but do not
          count yet. Undo the demo’s import below, and your own fleet is told for today.
        </p>
      )}
      {!(known.hasTests && known.engineModels > 0) && (
        <FirstSteps
          known={known}
          toImport={<span>Give the file below.</span>}
          toForecast={
            name === null ? (
              <span>To load the invented fleet, give your name below; then it is loaded here.</span>
            ) : (
              <DemoButton job={jobOf("demo")} />
            )
          }
        />
      )}
      <Sheet label="Files to import" className="no-print">
        <NameGate name={name} why="Every import is kept with the name of the person who made it.">
          <FileIntake job={jobOf("stage")} limits={uploadLimits(settings)} />
        </NameGate>
        <p className="second">
          Files with columns of their own are read as well; how, is kept as a layout.{" "}
          <AppLink href={layoutsAddress}>Layouts that are kept</AppLink>
        </p>
      </Sheet>
      {known.hasTests && <TestCautions />}
      <ImportList imports={imports} timeZone={settings.timeZone} />
      <ColumnHelp />
    </div>
  );
}

function findingOf({ engineModels, hasTests }: KnownSoFar): string {
  if (engineModels === 0 && !hasTests)
    return "No engine is known yet. Bring in engine models and results, together or one after the other.";
  if (!hasTests) return "Engine models are known. Now bring in test results, and the Fleet becomes the forecast.";
  return "Bring in new files. You see what they would change before anything is kept.";
}
