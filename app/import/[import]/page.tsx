import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { readImportAddress } from "@/app/_ui/import/address.ts";
import { FileSheet } from "@/app/_ui/import/file-sheet.tsx";
import { importHistory } from "@/app/_ui/import/import-history.ts";
import { ImportIssues } from "@/app/_ui/import/import-issues.tsx";
import { CommittedImport, EndedImport, StagedImport } from "@/app/_ui/import/import-states.tsx";
import { viewerFormats, viewerName } from "@/app/_ui/viewer.ts";
import { jobOfImport } from "@/app/api/_http/job-of-import.ts";
import { appStore } from "@/db/app-store.ts";
import { originalsKept } from "@/db/import-originals.ts";
import type { ImportDetail } from "@/db/imports.ts";
import { importDetail, importsOfSameBytes } from "@/db/imports.ts";
import { layoutNames } from "@/db/layouts.ts";
import { readSettings } from "@/db/settings.ts";
import type { Store } from "@/db/store.ts";
import "@/app/_ui/import/import.css";

interface Props {
  readonly params: Promise<{ readonly import: string }>;
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

// The same for every import: a title that waits for the store is missing for a moment after each change of state.
export const metadata: Metadata = { title: "One import" };

export default async function OneImportPage({ params, searchParams }: Props) {
  const store = await appStore();
  const detail = await importDetail(store, (await params).import);
  if (detail === null || detail.state === "discarded") notFound();
  const [settings, view, name, f] = await Promise.all([
    readSettings(store),
    searchParams,
    viewerName(),
    viewerFormats(),
  ]);
  const shown = {
    store,
    detail,
    view: readImportAddress(view),
    name,
    job: jobOfImport(detail.id),
  };
  return (
    <div className="page">
      <ul className="second import-history">
        {importHistory(detail, settings.timeZone, f).map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
      <State {...shown} />
      {detail.origin === "file" && (
        <FileSheet
          detail={detail}
          again={detail.state === "staged" ? await namesReadBefore(store, detail) : []}
          layouts={new Set(await layoutNames(store))}
          kept={await originalsKept(store, detail.id)}
          mayChange={name !== null}
        />
      )}
      <ImportIssues {...shown} />
    </div>
  );
}

function State(shown: Parameters<typeof StagedImport>[0]) {
  switch (shown.detail.state) {
    case "staged":
      return <StagedImport {...shown} />;
    case "committed":
      return <CommittedImport {...shown} />;
    default:
      return <EndedImport {...shown} />;
  }
}

/** Files of which a committed import had the very same bytes. */
async function namesReadBefore(store: Store, { files }: ImportDetail): Promise<string[]> {
  const names: string[] = [];
  for (const { name, sha256 } of files) {
    if (sha256 !== null && (await importsOfSameBytes(store, sha256)).length > 0) names.push(name);
  }
  return names;
}
