import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { FactList } from "@/app/_ui/fact-list.tsx";
import { importAddress } from "@/app/_ui/import/address.ts";
import { layoutAddress, layoutEditAddress, layoutsAddress } from "@/app/_ui/layouts/address.ts";
import { checkLayout } from "@/app/_ui/layouts/check-layout.ts";
import { putBackLayout } from "@/app/_ui/layouts/kept-actions.ts";
import { usesWords } from "@/app/_ui/layouts/kept-words.ts";
import { LayoutHistory } from "@/app/_ui/layouts/layout-history.tsx";
import { LayoutTable } from "@/app/_ui/layouts/layout-table.tsx";
import { LayoutUpload } from "@/app/_ui/layouts/layout-upload.client.tsx";
import { layoutVersionsOf } from "@/app/_ui/layouts/layout-versions.ts";
import { readsWords, wholeFileFacts } from "@/app/_ui/layouts/layout-words.ts";
import { WithdrawForm } from "@/app/_ui/layouts/withdraw-form.client.tsx";
import { NameGate } from "@/app/_ui/name-gate.tsx";
import { PutBack } from "@/app/_ui/put-back.client.tsx";
import { Sheet } from "@/app/_ui/sheet.tsx";
import { nameInAddress } from "@/app/_ui/unit-address.ts";
import { viewerFormats, viewerName } from "@/app/_ui/viewer.ts";
import { dayWords } from "@/app/_ui/when.ts";
import { appStore } from "@/db/app-store.ts";
import { layoutUses, layoutVersions } from "@/db/layouts.ts";
import { readSettings } from "@/db/settings.ts";
import "@/app/_ui/styles/house.css";
import "@/app/_ui/layouts/layouts.css";

interface Props {
  readonly params: Promise<{ readonly layout: string }>;
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

// Next hands the parameter to the page as it stands in the address, but to the title's function decoded.
export async function generateMetadata({ params }: Pick<Props, "params">): Promise<Metadata> {
  return { title: (await params).layout };
}

/** Imports that are linked to; the others are counted. */
const usesLinked = 5;

export default async function LayoutPage({ params, searchParams }: Props) {
  const name = nameInAddress((await params).layout) ?? "";
  const store = await appStore();
  const versions = layoutVersionsOf(await layoutVersions(store, name));
  const [latest] = versions;
  if (latest === undefined) notFound();
  const [allUses, { timeZone }, viewer, f, { saved }] = await Promise.all([
    layoutUses(store),
    readSettings(store),
    viewerName(),
    viewerFormats(),
    searchParams,
  ]);
  const uses = allUses.get(name) ?? [];
  const { layout, isInForce } = latest;
  const checked = layout === null ? null : checkLayout(layout);
  const seen = { was: name, after: latest.id };
  const day = (at: string) => dayWords(f, timeZone, at);
  return (
    <div className="page">
      <p className="no-print">
        <AppLink href={layoutsAddress}>All layouts</AppLink>
      </p>
      <div className="thing-head">
        <p className="unit-number">{name}</p>
        {!isInForce && <span className="tag">withdrawn</span>}
        <p className="second">
          version {f.number(latest.no)}, kept by {latest.by}, {day(latest.at)}
        </p>
      </div>
      <h1 className="finding">
        {layout === null
          ? "This layout was kept by another version of Borecast, and this one cannot read it."
          : `${readsWords(layout)}.`}
      </h1>
      {saved !== undefined && isInForce && (
        <p role="status" className="saved-note">
          Kept as version {f.number(latest.no)}. Files that come from now on are read so.
        </p>
      )}
      {!isInForce && <p>No file is recognised by it. What was read by it before stays.</p>}
      {checked?.ok === false && (
        <ul className="second">
          {[...Object.values(checked.problems), ...checked.gaps].map((gap) => (
            <li key={gap}>{gap}</li>
          ))}
        </ul>
      )}
      <p className="layout-uses">
        {usesWords(uses, day)}{" "}
        {uses.slice(0, usesLinked).map((use) => (
          <AppLink key={use.importId} href={importAddress(use.importId)}>
            {day(use.at)}, by {use.by}
          </AppLink>
        ))}
      </p>
      <div className="form-buttons no-print">
        <NameGate name={viewer}>
          {isInForce && layout !== null && (
            <AppLink href={layoutEditAddress(name)} variant="filled">
              Change it
            </AppLink>
          )}
          {isInForce && <WithdrawForm name={name} />}
          {!isInForce && layout !== null && (
            <PutBack
              action={putBackLayout.bind(null, name, latest.id, latest.id)}
              thing="this layout"
              label="Put it back"
              size="sm"
              what={`${name}, as it was withdrawn`}
            />
          )}
        </NameGate>
        {layout !== null && (
          <a className="button-link" href={`${layoutAddress(name)}/json`} download>
            Download as JSON
          </a>
        )}
      </div>
      {layout !== null && (
        <div className="layout-sheets">
          <Sheet title="Its columns" note="found by their headings, in whatever order" long>
            <LayoutTable name={name} layout={layout} />
          </Sheet>
          <Sheet title="The same for the whole file">
            <FactList facts={wholeFileFacts(layout)} />
          </Sheet>
        </div>
      )}
      <LayoutHistory name={name} versions={versions} timeZone={timeZone} mayChange={viewer !== null} f={f} />
      <Sheet
        title="Bring in a version"
        note="a layout as JSON, kept as the next version of this one"
        className="no-print"
      >
        <NameGate name={viewer}>
          <LayoutUpload key={latest.id} onto={seen} />
        </NameGate>
      </Sheet>
    </div>
  );
}
