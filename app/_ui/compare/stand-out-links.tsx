import type { ComparedModel } from "../../../lib/schema/comparison.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { Sheet } from "../sheet.tsx";
import { compareAddress, kindOf } from "./address.ts";
import { measureNames } from "./compare-words.ts";

const mostNamed = 8;

/** All models, with the units that stand out among their sisters. */
export function StandOutLinks({ models, f }: { readonly models: readonly ComparedModel[]; readonly f: Formats }) {
  return (
    <Sheet title="All models" note="units that decline faster than 9 in 10 sisters, or read beyond their band" long>
      <ul className="compare-models">
        {models.map((model) => {
          const { engineModel, meterUnit, measure, standingOut } = model;
          const named = standingOut.slice(0, mostNamed);
          return (
            <li key={`${kindOf(model)} ${measure}`}>
              <AppLink href={compareAddress({ model: engineModel, meterUnit, measure })}>
                {model.modelName}, {meterUnit}: {measureNames[measure].toLowerCase()}
              </AppLink>
              <span className="second"> {model.units === 1 ? "1 unit" : `${f.number(model.units)} units`} </span>
              {named.map((unit) => (
                <AppLink key={unit} href={compareAddress({ model: engineModel, meterUnit, measure, units: [unit] })}>
                  {unit}
                </AppLink>
              ))}
              {standingOut.length > named.length && <span>and {f.number(standingOut.length - named.length)} more</span>}
              {standingOut.length === 0 && <span className="second">none stands out</span>}
            </li>
          );
        })}
      </ul>
    </Sheet>
  );
}
