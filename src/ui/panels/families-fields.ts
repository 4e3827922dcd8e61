import { html, nothing } from 'lit';
import { ifDefined } from 'lit/directives/if-defined.js';

/** A choice of one of some values or of none. */
export function selectField(
  label: string,
  chosen: string | undefined,
  values: readonly string[],
  none: string | undefined,
  choose: (value: string | undefined) => void,
) {
  // What the address asks for is shown although no repair has it.
  const all = chosen === undefined || values.includes(chosen) ? values : [...values, chosen];
  return html`<label class="field"
    >${label}
    <select
      @change=${(event: Event) => {
        const { value } = event.target as HTMLSelectElement;
        choose(value === '' ? undefined : value);
      }}
    >
      ${none === undefined ? nothing : html`<option value="" ?selected=${chosen === undefined}>${none}</option>`}
      ${all.map((value) => html`<option value=${value} ?selected=${value === chosen}>${value}</option>`)}
    </select>
  </label>`;
}

/** A number within limits; an emptied field gives undefined, what is out of limits is not taken. */
export function numberField(
  label: string,
  value: number | undefined,
  { min, max, step }: { readonly min: number; readonly max?: number; readonly step?: number },
  choose: (value: number | undefined) => void,
) {
  return html`<label class="field"
    >${label}
    <input
      type="number"
      min=${min}
      max=${ifDefined(max)}
      step=${step ?? 1}
      .value=${value === undefined ? '' : String(value)}
      @change=${(event: Event) => {
        const field = event.target as HTMLInputElement;
        if (field.reportValidity()) choose(field.value === '' ? undefined : field.valueAsNumber);
      }}
    />
  </label>`;
}

/** A day; an emptied field gives undefined. */
export function dayField(label: string, day: number | undefined, choose: (day: number | undefined) => void) {
  return html`<label class="field"
    >${label}
    <input
      type="date"
      .value=${day === undefined ? '' : new Date(day).toISOString().slice(0, 10)}
      @change=${(event: Event) => {
        const field = event.target as HTMLInputElement;
        if (field.value === '') choose(undefined);
        else if (!Number.isNaN(field.valueAsNumber)) choose(field.valueAsNumber);
      }}
    />
  </label>`;
}

/** Any of some values. */
export function checkBoxes(
  legend: string,
  values: readonly string[],
  chosen: readonly string[],
  choose: (values: readonly string[]) => void,
) {
  if (values.length === 0) return nothing;
  return html`<fieldset class="boxes">
    <legend>${legend}</legend>
    ${values.map(
      (value) =>
        html`<label
          ><input
            type="checkbox"
            .checked=${chosen.includes(value)}
            @change=${(event: Event) => {
              const on = (event.target as HTMLInputElement).checked;
              choose(on ? [...chosen, value] : chosen.filter((one) => one !== value));
            }}
          />
          ${value}</label
        >`,
    )}
  </fieldset>`;
}
