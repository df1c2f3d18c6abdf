"use client";

import { Checkbox } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useState } from "react";
import { causeLabel } from "../../../lib/cause/words.ts";
import type { Cause } from "../../../lib/schema/words.ts";
import { useUnkept } from "../asking/use-unkept.client.ts";
import { recordAddress } from "./address.ts";
import { findable, scopesToRecord } from "./choices.ts";
import { type GivenPhotos, PhotoPicker, sendPhotos } from "./photo-picker.client.tsx";
import { RecordDesk } from "./record-desk.client.tsx";
import type { RepairFields } from "./repair-form.ts";
import { Choice, Day, Figure, optionsOf } from "./typed-field.client.tsx";
import { WhatItTook } from "./what-it-took.client.tsx";

const scopeLabels = {
  "top-end": "Top-end repair",
  "bottom-end": "Bottom-end repair",
  complete: "Complete overhaul",
  adjustment: "Adjustment (clearance, carbon, adaptor): no new life",
} as const;

/** A repair with what the strip-down showed in each cylinder, and its photos. */
export function RepairDesk(props: {
  readonly unit: string;
  readonly cylinders: number;
  readonly meterUnit: string;
  readonly today: string;
  readonly latest: string;
}) {
  const { unit, meterUnit } = props;
  const router = useRouter();
  const all = Array.from({ length: props.cylinders }, (_, i) => i + 1);
  const blank: RepairFields = {
    what: "repair",
    date: props.today,
    meter: "",
    scope: "",
    cylinders: all.map(() => props.cylinders === 1),
    findings: all.map(() => null),
    cost: "",
    labourHours: "",
    downtimeDays: "",
    remarks: "",
  };
  const [photos, setPhotos] = useState<GivenPhotos>({ files: [], problem: null });
  useUnkept(photos.files.length > 0);
  const named = (fields: RepairFields) => {
    const chosen = all.filter((cylinder) => fields.cylinders[cylinder - 1] === true);
    const cylinders = chosen.length === all.length ? "all" : chosen.join("+");
    return { unit, date: fields.date, scope: fields.scope, cylinders };
  };
  return (
    <RecordDesk
      unit={unit}
      blank={blank}
      address={recordAddress(unit, "repair")}
      afterwards={async (kept) => {
        const left = await sendPhotos(named(kept), photos.files);
        if (left.problem === null) {
          setPhotos(left);
          return true;
        }
        const problem = `The repair is kept, but not all photos: ${left.problem} Add the rest below.`;
        setPhotos({ ...left, problem });
        router.refresh();
        return false;
      }}
    >
      {(of) => {
        const { fields, set, problems } = of;
        const finding = (cylinder: number, found: RepairFields["findings"][number]) =>
          set({ findings: fields.findings.map((one, i) => (i === cylinder - 1 ? found : one)) });
        return (
          <>
            <fieldset>
              <legend>What was done</legend>
              <div className="field-row">
                <Choice of={of} name="scope" label="Repair" options={optionsOf(scopesToRecord, scopeLabels)} />
                <Day of={of} name="date" label="Day" latest={props.latest} />
                <Figure of={of} name="meter" label={`Meter, ${meterUnit}`} />
              </div>
              <fieldset className="record-finding">
                <legend>Cylinders worked on</legend>
                <div className="record-cylinders">
                  {all.length > 1 && (
                    <Checkbox
                      label="all"
                      checked={fields.cylinders.every(Boolean)}
                      onChange={(event) => set({ cylinders: all.map(() => event.currentTarget.checked) })}
                    />
                  )}
                  {all.map((cylinder) => (
                    <Checkbox
                      key={cylinder}
                      label={String(cylinder)}
                      aria-label={`Cylinder ${cylinder} was worked on`}
                      aria-invalid={problems["cylinders"] !== undefined}
                      checked={fields.cylinders[cylinder - 1] ?? false}
                      onChange={(event) =>
                        set({
                          cylinders: fields.cylinders.map((was, i) =>
                            i === cylinder - 1 ? event.currentTarget.checked : was,
                          ),
                        })
                      }
                    />
                  ))}
                </div>
              </fieldset>
              {problems["cylinders"] !== undefined && <p className="field-problem">{problems["cylinders"]}</p>}
            </fieldset>
            <fieldset>
              <legend>What the strip-down showed</legend>
              <p className="second">
                By cylinder. “Found sound” tells that it was opened and nothing was found: that, too, says how good the
                forecast was.
              </p>
              <ul className="form-list">
                {all.map((cylinder) => (
                  <Finding
                    key={cylinder}
                    cylinder={cylinder}
                    found={fields.findings[cylinder - 1] ?? null}
                    onChange={(found) => finding(cylinder, found)}
                  />
                ))}
              </ul>
            </fieldset>
            <WhatItTook of={of}>
              <PhotoPicker photos={photos} onChange={setPhotos} />
            </WhatItTook>
          </>
        );
      }}
    </RecordDesk>
  );
}

/** What was found in one cylinder: not looked at, sound, or causes. */
function Finding(props: {
  readonly cylinder: number;
  readonly found: readonly Cause[] | null;
  readonly onChange: (found: Cause[] | null) => void;
}) {
  const { cylinder, found, onChange } = props;
  return (
    <li>
      <fieldset className="record-finding">
        <legend>Cylinder {cylinder}</legend>
        <div className="record-causes">
          <Checkbox
            label="Found sound"
            checked={found !== null && found.length === 0}
            onChange={(event) => onChange(event.currentTarget.checked ? [] : null)}
          />
          {findable.map((cause) => (
            <Checkbox
              key={cause}
              label={causeLabel(cause)}
              checked={found?.includes(cause) ?? false}
              onChange={(event) => {
                const others = (found ?? []).filter((one) => one !== cause);
                const next = event.currentTarget.checked ? [...others, cause] : others;
                onChange(next.length === 0 ? null : next);
              }}
            />
          ))}
        </div>
      </fieldset>
    </li>
  );
}
