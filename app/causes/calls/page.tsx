import type { Metadata } from "next";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { callsAddress } from "@/app/_ui/causes/address.ts";
import { callsFinding, noCallsFinding } from "@/app/_ui/causes/call-words.ts";
import { CallsList, CallsMatrix } from "@/app/_ui/causes/calls-sheets.tsx";
import { toldCalls } from "@/app/_ui/causes/told-calls.ts";
import { EmptyState } from "@/app/_ui/empty-state.tsx";
import { modelEvidenceAddress } from "@/app/_ui/models/address.ts";
import { Sheet } from "@/app/_ui/sheet.tsx";
import { Terms } from "@/app/_ui/terms.tsx";
import { viewerFormats } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { standingModel } from "@/db/engine-models.ts";
import "@/app/_ui/causes/causes.css";

export const metadata: Metadata = { title: "Calls and findings" };

interface Props {
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

export default async function CallsPage({ searchParams }: Props) {
  const [store, f, asked] = await Promise.all([appStore(), viewerFormats(), searchParams]);
  const models = await toldCalls(store);
  const wanted = [asked["model"] ?? []].flat()[0] ?? null;
  const isKnown = wanted !== null && (await standingModel(store, wanted)) !== null;
  const shown = wanted === null ? models : models.filter(({ engineModel }) => engineModel === wanted);
  const calls = shown
    .flatMap((of) => of.calls)
    .toSorted((a, b) => (a.case.date < b.case.date ? 1 : a.case.date > b.case.date ? -1 : 0));
  const all = models.reduce((sum, of) => sum + of.calls.length, 0);
  return (
    <div className="page">
      <h1 className="finding">
        {calls.length === 0
          ? noCallsFinding(f, wanted === null ? null : { id: wanted, isKnown }, all)
          : callsFinding(f, calls)}
      </h1>
      <Terms of={["strip-down-finding", "top-end", "bottom-end"]} />
      {wanted !== null && (
        <p className="no-print">
          {isKnown && `${wanted} alone. `}
          <AppLink href={callsAddress()}>All engine models</AppLink>
          {isKnown && (
            <>
              {" "}
              · <AppLink href={modelEvidenceAddress(wanted)}>What its findings say</AppLink>
            </>
          )}
        </p>
      )}
      {calls.length === 0 ? (
        <Sheet label="Calls and findings">
          <EmptyState says="Record a repair of a unit with what was found in each cylinder, also where it was sound. What the tests had said before that day then stands beside it here, and the finding sharpens the next call." />
        </Sheet>
      ) : (
        <>
          <p className="second">
            In bold: calls that were right. Where both classes were found, either call is. A class adds up all of its
            causes, so it may be another than that of the likeliest single cause.
          </p>
          {shown.length > 1 && <CallsMatrix title="All engine models" calls={calls} f={f} />}
          {shown.map((of) => (
            <CallsMatrix key={of.engineModel} title={of.name} calls={of.calls} f={f} />
          ))}
          <CallsList calls={calls} csv="/causes/calls.csv" f={f} />
          <p className="second">
            What was issued before the day of the repair stays as it was called, whatever the evidence table says today.
            Where nothing was issued then, the call is told by today’s table, as of the day before the repair and as
            earlier strip-downs had sharpened it, never with what it found itself. Where a repair tells its finding for
            the whole engine, it is held against the weakest of the cylinders that it names. Fewer than 20 are counted;
            from 20 on a share stands with its 95 % interval.
          </p>
        </>
      )}
    </div>
  );
}
