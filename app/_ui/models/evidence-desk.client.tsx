"use client";

import { Button, NativeSelect, Textarea, TextInput } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useRef, useState } from "react";
import type { EngineModel } from "../../../lib/schema/engine-model.ts";
import type { EvidenceId } from "../../../lib/schema/evidence-ids.ts";
import { type Cause, causes } from "../../../lib/schema/words.ts";
import { AppLink } from "../app-link.client.tsx";
import { AskedChangeView } from "../asking/asked-change.client.tsx";
import { useAskedChange } from "../asking/use-asked-change.client.ts";
import { useRefusedField } from "../asking/use-refused-field.client.ts";
import { useUnkept } from "../asking/use-unkept.client.ts";
import { ScriptedFields } from "../scripted-fields.client.tsx";
import { evidenceSavedAddress, modelEditAddress } from "./address.ts";
import { modelFieldWords } from "./field-words.ts";
import { type AskedModel, previewModel, saveModel } from "./model-actions.ts";
import { type EvidenceDraft, evidenceText, type ModelDraft } from "./model-draft.ts";
import { SharesFields } from "./shares-fields.client.tsx";

/** A finding as the form offers it. */
export interface OfferedFinding {
  readonly id: EvidenceId;
  readonly title: string;
  /** What holds for this model while it has no value of its own, strip-downs counted; by cause, as it is read. */
  readonly holds: Readonly<Record<Cause, string>>;
}

interface Group {
  readonly title: string;
  readonly findings: readonly OfferedFinding[];
}

const blank: EvidenceDraft["likelihoods"] = Object.fromEntries(causes.map((cause) => [cause, ""])) as Record<
  Cause,
  string
>;

/**
 * A model's own shares of the causes and its likelihoods of one finding as a form: fields, then which units would change, then the change itself under
 * the viewer's name. What is left blank stays the table's.
 */
export function EvidenceDesk(props: {
  readonly draft: ModelDraft;
  readonly seen: EngineModel;
  readonly groups: readonly Group[];
  /** Of the causes before anything is seen, while the model has no shares of its own; by cause, as they are read. */
  readonly shares: Readonly<Record<Cause, string>>;
  readonly causeNames: Readonly<Record<Cause, string>>;
  /** How many strip-downs a starting value weighs as much as. */
  readonly startingWeight: number;
  readonly name: string;
}) {
  const { seen, groups, causeNames } = props;
  const router = useRouter();
  const form = useRef<HTMLFormElement>(null);
  const [draft, setDraft] = useState(props.draft);
  const findings = groups.flatMap((group) => group.findings);
  const [finding, setFinding] = useState(draft.evidence[0]?.finding ?? (findings[0] as OfferedFinding).id);
  const change = useAskedChange<AskedModel>({
    look: previewModel,
    save: saveModel,
    running: null,
    onSaved: (result) => {
      // What the job that saves a model gives.
      const { import: importId } = result as { readonly import: string };
      router.push(evidenceSavedAddress(seen.id, importId));
    },
  });
  useRefusedField(form, change.begun);
  useUnkept(evidenceText(draft) !== evidenceText(props.draft));
  const problems = change.begun?.problems ?? {};
  // Fields that this form does not show: the model was taken by other rules, or before there were any.
  const outside = Object.entries(problems).filter(([field]) => !/^(evidence|causeShares)\./.test(field));

  const offered = findings.find(({ id }) => id === finding) as OfferedFinding;
  const own = draft.evidence.find((one) => one.finding === finding) ?? { finding, likelihoods: blank, reason: "" };
  const put = (more: Partial<EvidenceDraft>) => {
    const others = draft.evidence.filter((one) => one.finding !== finding);
    setDraft({ ...draft, evidence: [...others, { ...own, ...more }] });
    change.leave();
  };
  const elsewhere = findings.filter(
    ({ id }) => id !== finding && Object.keys(problems).some((field) => field.startsWith(`evidence.${id}.`)),
  );
  const ofFinding = `evidence.${finding}`;
  return (
    <div className="model-desk">
      <ScriptedFields>
        <form
          ref={form}
          className="house-form model-form"
          aria-busy={change.busy}
          noValidate
          onSubmit={(event) => {
            event.preventDefault();
            change.look({ draft, seen });
          }}
        >
          <SharesFields
            own={draft.causeShares}
            holds={props.shares}
            causeNames={causeNames}
            startingWeight={props.startingWeight}
            problems={problems}
            onChange={(causeShares) => {
              setDraft({ ...draft, causeShares });
              change.leave();
            }}
          />
          <fieldset>
            <legend>Of which finding</legend>
            <NativeSelect
              label="Finding"
              description="One marked has values of this model already."
              value={finding}
              data={groups.map(({ title, findings: of }) => ({
                group: title,
                items: of.map(({ id, title: name }) => ({
                  value: id,
                  label: draft.evidence.some((one) => one.finding === id) ? `${name} (own)` : name,
                })),
              }))}
              onChange={(event) => setFinding(event.currentTarget.value as EvidenceId)}
            />
          </fieldset>
          <fieldset>
            <legend>How often it is seen under each cause alone</legend>
            <p className="second">
              In per cent: 85 means that 85 in 100 engines with that cause show it. A value given here is a start, with
              the weight of {props.startingWeight} strip-downs; what strip-downs of this model found sharpens it. Left
              blank, the value in grey holds, with theirs counted already. All left blank, the finding is the table’s
              again.
            </p>
            {problems[`${ofFinding}.likelihoods`] !== undefined && (
              <p className="field-problem" role="alert">
                Give at least one value, or clear the reason as well.
              </p>
            )}
            <div className="field-row">
              {causes.map((cause) => (
                <TextInput
                  key={`${finding} ${cause}`}
                  name={`${ofFinding}.likelihoods.${cause}`}
                  label={causeNames[cause]}
                  placeholder={offered.holds[cause]}
                  inputMode="decimal"
                  autoComplete="off"
                  value={own.likelihoods[cause]}
                  error={problems[`${ofFinding}.likelihoods.${cause}`]}
                  onChange={(event) => put({ likelihoods: { ...own.likelihoods, [cause]: event.currentTarget.value } })}
                />
              ))}
            </div>
            <Textarea
              name={`${ofFinding}.reason`}
              label="Reason"
              description="Why this engine differs, for whoever reads it later."
              autosize
              minRows={2}
              value={own.reason}
              error={problems[`${ofFinding}.reason`]}
              onChange={(event) => put({ reason: event.currentTarget.value })}
            />
          </fieldset>
          {elsewhere.map(({ id, title }) => (
            <p key={id} className="field-problem" role="alert">
              “{title}” has a field that is not taken.{" "}
              <Button variant="default" size="compact-sm" onClick={() => setFinding(id)}>
                Show it
              </Button>
            </p>
          ))}
          {outside.map(([field, why]) => (
            <p key={field} className="field-problem" role="alert">
              The engine model itself is not taken; {modelFieldWords(field)}: {why}{" "}
              <AppLink href={modelEditAddress(seen.id)}>Change the engine model</AppLink>
            </p>
          ))}
          <div className="form-buttons">
            <Button type="submit" loading={change.busy}>
              See what would change
            </Button>
            <p className="second">Nothing is kept yet.</p>
          </div>
        </form>
        <AskedChangeView
          change={change}
          savedBy="save"
          mayCancelSaving={false}
          note={`Kept with your name, ${props.name}; it can be undone.`}
          save="Keep the change"
          leave="Back to the fields"
          onLeave={() => change.leave()}
        />
      </ScriptedFields>
    </div>
  );
}
