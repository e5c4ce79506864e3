/** The ten facts of the short form, and which part of the boat each one speaks of. */
import { partKinds } from '@ampwright/core';
import type { ChoiceKind, QuantityKind, TenFacts } from '@ampwright/core';

export type FactEntry =
  | { readonly field: keyof TenFacts; readonly quantity: QuantityKind }
  | { readonly field: keyof TenFacts; readonly choice: ChoiceKind };

export const factTable: Readonly<Record<string, FactEntry>> = {
  alternator_current: { field: 'alternatorCurrent', quantity: partKinds.alternator.quantities.rated_current },
  regulator_place: { field: 'regulatorPlace', choice: partKinds.regulator.choices.place },
  excitation: { field: 'excitation', choice: partKinds.alternator.choices.excitation },
  bank_capacity: { field: 'bankCapacity', quantity: partKinds.battery.quantities.capacity },
  bank_chemistry: { field: 'bankChemistry', choice: partKinds.battery.choices.chemistry },
  cable_area: { field: 'cableArea', quantity: partKinds.cable.quantities.area },
  cable_length: { field: 'cableLength', quantity: partKinds.cable.quantities.length },
  belt_section: { field: 'beltSection', choice: partKinds.belt.choices.section },
  idle_speed: { field: 'idleSpeed', quantity: partKinds.engine.quantities.idle_speed },
  loads_current: { field: 'loadsCurrent', quantity: partKinds.load.quantities.current },
};
