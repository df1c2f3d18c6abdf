"use client";

import { type MantineColorScheme, useMantineColorScheme } from "@mantine/core";
import { useMounted } from "@mantine/hooks";

const choices: readonly { readonly value: MantineColorScheme; readonly title: string }[] = [
  { value: "light", title: "Light" },
  { value: "dark", title: "Dark" },
  { value: "auto", title: "As the system" },
];

/** Light, dark or as the system says; kept in this browser. */
export function SchemeChoice() {
  const { colorScheme, setColorScheme } = useMantineColorScheme();
  // The server cannot know what this browser keeps, so no choice is shown as taken until the page runs.
  const mounted = useMounted();
  return (
    <fieldset className="scheme-choice">
      <legend>Appearance</legend>
      <div className="segments">
        {choices.map(({ value, title }) => (
          <label key={value} data-chosen={mounted && colorScheme === value}>
            <input
              type="radio"
              name="colour-scheme"
              className="visually-hidden"
              checked={mounted && colorScheme === value}
              onChange={() => setColorScheme(value)}
            />
            {title}
          </label>
        ))}
      </div>
    </fieldset>
  );
}
