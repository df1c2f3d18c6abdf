"use client";

import { useRouter } from "next/navigation";
import { type ReactNode, useEffect, useRef, useState } from "react";
import type { MeasureFacts, SheetFacts } from "../../../lib/test-entry/sheet-facts.ts";
import { ErrorNote } from "../error-note.tsx";
import { useFormats } from "../formats.client.tsx";
import { measureTitles } from "../unit/unit-words.ts";
import { sentTestAddress } from "./address.ts";
import { BeginTest } from "./begin-test.client.tsx";
import { CylindersStep } from "./cylinders-step.client.tsx";
import { type DeviceDraft, entered, newDraft, type Step, steps, takenUpAgain } from "./device-draft.ts";
import { DeviceNote } from "./device-note.client.tsx";
import { changeDraft, newDraftId, putDraft, removeDraft, useDeviceSheets } from "./device-store.client.ts";
import { EndStep } from "./end-step.client.tsx";
import { useOpenElsewhere } from "./open-elsewhere.client.ts";
import { SetUpStep } from "./set-up-step.client.tsx";
import { useSender } from "./use-sender.client.ts";
import { WaitingTest } from "./waiting-test.client.tsx";

/** Changes the sheet that is entered, as the device keeps it. */
export type Change = (change: (draft: DeviceDraft) => DeviceDraft) => void;

const stepTitles = { "set-up": "Set-up", cylinders: "Cylinders", end: "End" } as const satisfies Record<Step, string>;

/** Where a test of a unit is entered, step by step; all of it stands on the device until it is sent. */
export function TestDesk(props: {
  readonly facts: SheetFacts;
  readonly viewer: string;
  /** The day that a new sheet proposes, and the last that it may carry. */
  readonly today: string;
  readonly latest: string;
  readonly cautions: ReactNode;
}) {
  const { facts, viewer, today, latest, cautions } = props;
  const f = useFormats();
  const router = useRouter();
  const sheets = useDeviceSheets();
  const { sendNow, isSending } = useSender();
  const [chosen, setChosen] = useState<string | null>(null);
  /** The step that the end led back to, for something in it is to be put right. */
  const [refusedIn, setRefusedIn] = useState<Step | null>(null);
  const [shown, setShown] = useState<string | null>(null);
  const heading = useRef<HTMLHeadingElement>(null);

  const own = (sheets?.drafts ?? []).filter(({ unit, sent }) => unit === facts.unit && sent === null);
  const draft = own.find(({ id }) => id === chosen) ?? (chosen === null && own.length === 1 ? own[0] : undefined);
  const of = facts.tests.find(({ test }) => test === draft?.test);
  // The sheet that was looked at was sent: what it says is read next.
  const sent = sheets?.drafts.find(({ id }) => id === shown)?.sent ?? null;
  useEffect(() => {
    if (sent !== null) router.replace(sentTestAddress(facts.unit, sent));
  }, [sent, router, facts.unit]);
  useEffect(() => {
    if (draft !== undefined) setShown(draft.id);
  }, [draft]);

  const isElsewhere = useOpenElsewhere(draft?.id ?? null);

  if (sheets === null) return <p role="status">Looking for tests on this device…</p>;
  const change: Change = (by) => {
    if (draft !== undefined) changeDraft(draft.id, (now) => entered(now, by));
  };
  const go = (step: Step, isRefused = false) => {
    setRefusedIn(isRefused ? step : null);
    change((d) => ({ ...d, step }));
    // The step that was left is gone with what had the keyboard.
    heading.current?.focus();
    heading.current?.scrollIntoView({ block: "start" });
  };
  const begin = (chosenTest: MeasureFacts) => {
    const pressure = f.preferences.pressure;
    const id = newDraftId(Date.now());
    putDraft(newDraft({ id, facts, of: chosenTest, date: today, testedBy: viewer, pressure }));
    setChosen(id);
  };
  const send = () => {
    change((d) => ({ ...d, sending: "waiting", refusal: null }));
    sendNow();
  };
  return (
    <div className="test-desk">
      {!sheets.isKept && (
        <ErrorNote
          happened="This browser keeps nothing on the device."
          todo="Leave this page open until the test is sent, or use another browser or the paper sheet."
        />
      )}
      {isElsewhere && (
        <p className="caution" role="status">
          This test is open in another page of this browser too. Each shows what the other keeps; enter it in one of
          them.
        </p>
      )}
      {draft === undefined || of === undefined ? (
        <BeginTest facts={facts} unfinished={own} onBegin={begin} onChoose={setChosen} />
      ) : draft.sending !== "no" ? (
        <WaitingTest
          draft={draft}
          isSending={isSending}
          onSend={sendNow}
          onChange={() => changeDraft(draft.id, takenUpAgain)}
        />
      ) : (
        <section className="sheet" aria-labelledby="test-step">
          <div className="sheet-head">
            <h2 id="test-step" ref={heading} tabIndex={-1}>
              {measureTitles[draft.test]}: {stepTitles[draft.step].toLowerCase()}
            </h2>
            <p className="second">
              Step {steps.indexOf(draft.step) + 1} of {steps.length}
            </p>
          </div>
          {draft.step === "set-up" && (
            <SetUpStep
              {...{ draft, facts, of, cautions, change }}
              isRefused={refusedIn === "set-up"}
              onNext={() => go("cylinders")}
            />
          )}
          {draft.step === "cylinders" && (
            <CylindersStep {...{ draft, of, change }} onBack={() => go("set-up")} onNext={() => go("end")} />
          )}
          {draft.step === "end" && (
            <EndStep
              {...{ draft, facts, latest, change }}
              onBack={() => go("cylinders")}
              onRefused={(step) => go(step, true)}
              onSend={send}
            />
          )}
          <LeaveTest onLeave={() => setChosen("")} onDiscard={() => removeDraft(draft.id)} />
        </section>
      )}
      <DeviceNote drafts={sheets.drafts} isKept={sheets.isKept} here={facts.unit} />
    </div>
  );
}

/** Leaves the sheet for another test, or throws it away: asked first, for nothing brings it back. */
function LeaveTest({ onLeave, onDiscard }: { readonly onLeave: () => void; readonly onDiscard: () => void }) {
  const [isAsking, setAsking] = useState(false);
  if (isAsking) {
    return (
      <div className="entry-asks" role="alert">
        <p>
          <strong>Throw this test away?</strong> What you entered is on this device alone, and nothing brings it back.
        </p>
        <div className="tap-foot">
          <button type="button" className="tap" onClick={() => setAsking(false)}>
            Keep it
          </button>
          <button type="button" className="tap" onClick={onDiscard}>
            Throw away
          </button>
        </div>
      </div>
    );
  }
  return (
    <div className="tap-foot tap-aside">
      <button type="button" className="tap" onClick={onLeave}>
        Enter another test
      </button>
      <button type="button" className="tap" onClick={() => setAsking(true)}>
        Throw away
      </button>
    </div>
  );
}
