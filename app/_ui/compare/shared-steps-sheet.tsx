import type { SharedStep } from "../../../lib/schema/comparison.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { Sheet } from "../sheet.tsx";
import { unitAddress } from "../unit-address.ts";
import { stepQuestion, stepWords } from "./step-words.ts";

/** Instruments and depots at which many units stepped together: for a person to settle; nothing where none did. */
export function SharedStepsSheet({ f, steps }: { readonly f: Formats; readonly steps: readonly SharedStep[] }) {
  if (steps.length === 0) return null;
  return (
    <Sheet
      title="Many units stepped together"
      note="so many engines at once: an instrument or a way to test is likelier than their wear; please settle which"
      long
    >
      <ul className="compare-steps">
        {steps.map((step) => (
          <li key={`${step.measure} ${step.of} ${step.name} ${step.date}`}>
            <p>
              <strong>{stepWords(f, step)}</strong> {stepQuestion(step)}
            </p>
            <p className="compare-step-units">
              {step.units.map((unit) => (
                <AppLink key={unit} href={unitAddress(unit)}>
                  {unit}
                </AppLink>
              ))}
            </p>
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
