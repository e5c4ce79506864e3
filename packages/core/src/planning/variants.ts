/** The what-ifs that apply to a boat. */
import type { BoatDescription } from '../boat/index.ts';
import { fewerLoads, lithiumBank, thickerCable } from './bank-variants.ts';
import { betterVentilation, externalRegulator, fasterPulley, largerAlternator } from './machine-variants.ts';
import { combiningRelay, diodeIsolator, secondAlternator } from './separation-variants.ts';
import { variantIds, type Variant, type VariantId, type VariantResult } from './variant.ts';

const makers: Readonly<Record<VariantId, (description: BoatDescription, size?: number) => VariantResult>> = {
  'larger-alternator': largerAlternator,
  'faster-pulley': fasterPulley,
  'external-regulator': externalRegulator,
  'lithium-bank': lithiumBank,
  'second-alternator': secondAlternator,
  'combining-relay': combiningRelay,
  'diode-isolator': diodeIsolator,
  'thicker-cable': thickerCable,
  'better-ventilation': betterVentilation,
  'fewer-loads': fewerLoads,
};

/** One what-if of a boat, with the proposed size or the user's own [SI].
 *  Errors: RangeError for a size outside the range of the quantity that it becomes */
export function variantOf(description: BoatDescription, id: VariantId, size?: number): VariantResult {
  const result = makers[id](description, size);
  const limits = result.kind === 'variant' ? result.variant.size : undefined;
  if (size !== undefined && limits !== undefined && !(size >= limits.low && size <= limits.high))
    throw new RangeError(
      `variantOf: size ${size} of ${id} (${limits.words}, SI) must lie in ${limits.low}..${limits.high}`,
    );
  return result;
}

/** Every what-if that applies to this boat, with its proposed size. */
export function proposedVariants(description: BoatDescription): readonly Variant[] {
  return variantIds.flatMap((id) => {
    const result = variantOf(description, id);
    return result.kind === 'variant' ? [result.variant] : [];
  });
}
