"use client";

import { useId } from "react";

/** A question with large buttons for its answers; pressing the chosen one again takes it back. */
export function ChoiceButtons<T extends string>(props: {
  readonly asks: string;
  readonly why?: string;
  /** Each with its words. */
  readonly choices: readonly (readonly [T, string])[];
  readonly chosen: readonly T[];
  readonly onPress: (choice: T) => void;
}) {
  const id = useId();
  return (
    <fieldset className="choice" aria-labelledby={`${id}-asks`} aria-describedby={`${id}-why`}>
      <div className="choice-says">
        <strong id={`${id}-asks`}>{props.asks}</strong>
        <span id={`${id}-why`} className="second">
          {props.why}
        </span>
      </div>
      <div className="choice-buttons">
        {props.choices.map(([choice, words]) => (
          <button
            key={choice}
            type="button"
            className="tap"
            aria-pressed={props.chosen.includes(choice)}
            onClick={() => props.onPress(choice)}
          >
            {words}
          </button>
        ))}
      </div>
    </fieldset>
  );
}
