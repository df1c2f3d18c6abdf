import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { layoutOfRow } from "@/app/_jobs/file-layout.ts";
import { isEmptyFile } from "@/app/_jobs/open-questions.ts";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { importAddress } from "@/app/_ui/import/address.ts";
import { HeadingsChooser } from "@/app/_ui/layouts/headings-chooser.client.tsx";
import { LayoutForm } from "@/app/_ui/layouts/layout-form.client.tsx";
import { columnsFinding } from "@/app/_ui/layouts/layout-words.ts";
import { shownColumns } from "@/app/_ui/layouts/shown-columns.ts";
import { NameGate } from "@/app/_ui/name-gate.tsx";
import { Sheet } from "@/app/_ui/sheet.tsx";
import { viewerFormats, viewerName } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { importDetail } from "@/db/imports.ts";
import "@/app/_ui/styles/house.css";
import "@/app/_ui/layouts/layouts.css";

export const metadata: Metadata = { title: "Columns of a file" };

interface Props {
  readonly params: Promise<{ readonly import: string }>;
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

/** How the columns of one foreign file of a waiting import are read. */
export default async function ColumnsPage({ params, searchParams }: Props) {
  const store = await appStore();
  const [detail, { file: asked }, viewer, f] = await Promise.all([
    importDetail(store, (await params).import),
    searchParams,
    viewerName(),
    viewerFormats(),
  ]);
  const file = detail?.files.find(({ fileNo }) => String(fileNo) === asked);
  const told = file === undefined ? null : layoutOfRow(file);
  const layout = told?.layout ?? told?.suggested ?? null;
  if (detail === null || detail.state !== "staged" || file === undefined || told === null) notFound();
  // It has no columns, and no row to choose as their headings.
  if (isEmptyFile(file)) notFound();
  const open = told.questions.filter(({ needed }) => needed);
  const names = f.knowing([file.name]);
  return (
    <div className="page">
      <p className="no-print">
        <AppLink href={importAddress(detail.id)}>Back to the import</AppLink>
      </p>
      <h1 className="finding">{names.words(columnsFinding(file.name, told))}</h1>
      {open.length > 0 && (
        <Sheet title="What the file does not tell">
          <ul className="layout-questions">
            {open.map(({ code, words, columns }) => (
              <li key={`${code} ${columns.join()}`}>{names.words(words)}</li>
            ))}
          </ul>
        </Sheet>
      )}
      {layout !== null && (
        <Sheet title="Its columns" note="each as it was understood; change what is not right" long>
          <NameGate name={viewer}>
            <LayoutForm
              importId={detail.id}
              file={file.name}
              layout={layout}
              shown={shownColumns(told)}
              name={told.name ?? ""}
            />
          </NameGate>
        </Sheet>
      )}
      {told.firstRows.length > 0 && (
        <Sheet
          title={layout === null ? "Which row has the headings?" : "Its headings"}
          note={layout === null ? "The file begins so." : "Choose another row where these are not its headings."}
          long
        >
          <NameGate name={viewer}>
            <HeadingsChooser
              importId={detail.id}
              file={file.name}
              fileNo={file.fileNo}
              rows={told.firstRows}
              chosen={told.headings}
            />
          </NameGate>
        </Sheet>
      )}
    </div>
  );
}
