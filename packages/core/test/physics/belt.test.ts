import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { beltPractice, beltSection, beltSectionNames } from '../../src/handbook/belts.ts';
import {
  type BeltGrip,
  beltSlip,
  beltSpan,
  centreDistanceFor,
  centrifugalTension,
  greatestPull,
  gripRatio,
  openBeltLength,
  slipHeat,
  smallPulleyWrap,
  tensionFromDeflection,
  torqueCapacity,
  vBeltFriction,
  wrapShare,
} from '../../src/physics/belt.ts';
import { perMinute } from './machines.ts';

const inch = 0.0254;
const poundForce = 4.4482216152605;
const poundPerFoot = 0.45359237 / 0.3048;
const footPerMinute = 0.3048 / 60;
const degree = Math.PI / 180;

function grip(
  friction: number,
  grooveAngle: number,
  wrap: number,
  w: number,
  standing: number,
  d: number,
): BeltGrip {
  return {
    friction,
    grooveAngle,
    wrap,
    massPerLength: w * poundPerFoot,
    standingTension: standing * poundForce,
    pulleyDiameter: d * inch,
  };
}

describe('worked examples', () => {
  it('[SHIG Ex. 17-1, B1] wrap, length and grip of a flat belt', () => {
    const wrap = smallPulleyWrap(18 * inch, 6 * inch, 96 * inch);
    expect(wrap).toBeCloseTo(3.016511, 5);
    expect(2 * Math.PI - wrap).toBeCloseTo(3.266674, 5);
    expect(openBeltLength(18 * inch, 6 * inch, 96 * inch) / inch).toBeCloseTo(230.074, 2);
    expect((perMinute(1750) * 3 * inch) / footPerMinute).toBeCloseTo(2748.9, 0);
    expect(gripRatio(0.8, Math.PI, wrap)).toBeCloseTo(11.17, 2);
  });

  it('[SHIG Ex. 17-1, B2] the friction in use carries the load at the printed standing tension', () => {
    const speed = perMinute(1750) * 3 * inch;
    const belt = grip(0.328, Math.PI, 3.016511, 0.393, 270.6 + 25.65, 6);
    // The example takes g = 32.17 ft/s²; 0.2 % is its rounding.
    expect(centrifugalTension(belt.massPerLength, speed) / poundForce / 25.65).toBeCloseTo(1, 2);
    // 247.6 lbf; 0.3 % because friction is printed to three digits.
    expect(Math.abs(greatestPull(belt, speed) / poundForce / 247.6 - 1)).toBeLessThan(0.003);
    expect(Math.abs(torqueCapacity(belt, perMinute(1750)) / (inch * poundForce) / 742.8 - 1)).toBeLessThan(
      0.003,
    );
  });

  it('[SHIG Ex. 17-2, B3] ΔF 664 lbf at Fi 396.6 lbf', () => {
    const belt = grip(0.8, Math.PI, 3.037, 0, 396.6, 6);
    expect(gripRatio(0.8, Math.PI, 3.037)).toBeCloseTo(11.35, 1);
    expect(Math.abs(greatestPull(belt, 0) / poundForce - 664)).toBeLessThan(1.5);
  });

  it('[SHIG 17, B4] polyamide belt: wrap, length, speed, ΔF 90 lbf', () => {
    const wrap = smallPulleyWrap(4 * inch, 2 * inch, 108 * inch);
    expect(wrap).toBeCloseTo(3.123, 3);
    expect(openBeltLength(4 * inch, 2 * inch, 108 * inch) / inch).toBeGreaterThan(225.3);
    expect(openBeltLength(4 * inch, 2 * inch, 108 * inch) / inch).toBeLessThan(225.5);
    const speed = perMinute(1750) * inch;
    expect(speed / footPerMinute).toBeCloseTo(916.3, 1);
    // g = 32.17 ft/s²; half a unit of the last digit.
    expect(centrifugalTension(0.126 * poundPerFoot, speed) / poundForce).toBeCloseTo(0.913, 3);
    const belt = grip(0.307, Math.PI, wrap, 0.126, 101.1 + 0.913, 2);
    // 0.3 %: friction and tension are printed to three and four digits.
    expect(Math.abs(greatestPull(belt, speed) / poundForce / 90 - 1)).toBeLessThan(0.003);
  });

  it('[SHIG Prob. 17-19 type, B5] ΔF 225.8 lbf at Fi 169.3 lbf and a grip ratio of 5', () => {
    const belt = grip(Math.log(5) / 3, Math.PI, 3, 0, 169.3, 26);
    const pull = greatestPull(belt, 0) / poundForce;
    expect(Math.abs(pull - 225.8)).toBeLessThan(0.2);
    // F1 308.1 and F2 82.3 lbf stand around Fi + Fc, with Fc = 3.498 · (2722.7/1000)² = 25.9 lbf.
    expect(169.3 + 25.93 + pull / 2).toBeCloseTo(308.1, 0);
    expect(169.3 + 25.93 - pull / 2).toBeCloseTo(82.3, 0);
  });

  it('[SHIG Ex. 17-4, B6] V-belt: centre distance, wrap, grip, ΔF 42.18 lbf', () => {
    const centre = centreDistanceFor(113.8 * inch, 11 * inch, 7.4 * inch);
    expect(centre / inch).toBeCloseTo(42.41, 1);
    const wrap = smallPulleyWrap(11 * inch, 7.4 * inch, centre);
    expect(wrap).toBeCloseTo(3.0567, 3);
    const angle = 36 * degree;
    expect(gripRatio(vBeltFriction(angle), angle, wrap)).toBeCloseTo(4.787, 2);
    const belt = grip(vBeltFriction(angle), angle, wrap, 0, 32.23, 7.4);
    const pull = greatestPull(belt, 0) / poundForce;
    expect(Math.abs(pull - 42.18)).toBeLessThan(0.05);
    expect((perMinute(1750) * 3.7 * inch) / footPerMinute).toBeCloseTo(3390, -1);
    // F1 64.41 and F2 22.23 lbf, Fc 11.09 lbf.
    expect(Math.abs(32.23 + 11.09 + pull / 2 - 64.41)).toBeLessThan(0.05);
    expect(Math.abs(32.23 + 11.09 - pull / 2 - 22.23)).toBeLessThan(0.05);
  });

  it('[MOTT Ex. 7-1, B7] length 101.4 in; for 100 in a centre distance of 23.30 in and 158° of wrap', () => {
    expect(openBeltLength(21.1 * inch, 12.4 * inch, 24 * inch) / inch).toBeCloseTo(101.4, 1);
    const centre = centreDistanceFor(100 * inch, 21.1 * inch, 12.4 * inch);
    // 0.02 in: the book rounds 2π to 6.28.
    expect(Math.abs(centre / inch - 23.3)).toBeLessThan(0.02);
    expect(Math.abs(smallPulleyWrap(21.1 * inch, 12.4 * inch, centre) / degree - 158.5)).toBeLessThan(0.1);
  });

  it('[HAM 19.14, B8] effective friction 0.647, and the printed strands transmit 11.0 hp', () => {
    expect(Math.log(gripRatio(0.2, 36 * degree, 1))).toBeCloseTo(0.647, 3);
    const wrap = Math.log((257.1 - 3.57) / (42.9 - 3.57)) / 0.647;
    const belt = grip(0.2, 36 * degree, wrap, 0, (257.1 + 42.9) / 2 - 3.57, 6);
    const pull = greatestPull(belt, 0) / poundForce;
    expect(Math.abs((pull * 1695) / 33000 - 11)).toBeLessThan(0.05);
  });

  it('[KHURMI V-belt, B9, from memory] 16.08 kW on each of six belts, 5.65 m long', () => {
    const angle = 35 * degree;
    const wrap = smallPulleyWrap(1, 1 / 3, 1.75);
    const speed = 26.67;
    // 375 mm² of 1000 kg/m³; T1 is what 2.5 MPa leaves beside it.
    const centrifugal = centrifugalTension(0.375, speed);
    expect(centrifugal).toBeCloseTo(266.7, 0);
    const tight = 2.5 * 375 - centrifugal;
    const ratio = gripRatio(0.25, angle, wrap);
    expect(tight).toBeCloseTo(670.8, 0);
    expect(ratio).toBeCloseTo(9.9, 1);
    expect(Math.abs(tight / ratio - 67.8)).toBeLessThan(0.2);
    // The strands of the example seen from our side: their mean with the centrifugal part is the standing tension.
    const belt: BeltGrip = {
      friction: 0.25,
      grooveAngle: angle,
      wrap,
      massPerLength: 0.375,
      standingTension: (tight + tight / ratio) / 2 + centrifugal,
      pulleyDiameter: 1 / 3,
    };
    const power = greatestPull(belt, speed) * speed;
    expect(Math.abs(power - 16080)).toBeLessThan(20);
    expect(Math.ceil(90000 / power)).toBe(6);
    expect(Math.abs(openBeltLength(1, 1 / 3, 1.75) - 5.655)).toBeLessThan(0.01);
  });

  it('[definition] wrap and Euler checks', () => {
    expect(smallPulleyWrap(0.15, 0.065, 0.25) / degree).toBeCloseTo(160.42, 1);
    expect(smallPulleyWrap(0.18, 0.06, 0.3) / degree).toBeCloseTo(156.93, 1);
    expect(smallPulleyWrap(6 * inch, 2.5 * inch, 12 * inch) / degree).toBeCloseTo(163.23, 1);
    expect(gripRatio(0.3, 36 * degree, 160 * degree)).toBeCloseTo(15.04, 1);
    expect(Math.log(gripRatio(0.3, 36 * degree, 1))).toBeCloseTo(0.9708, 4);
  });

  it('[statics] a deflection of span/64 shows a tension of 16 times the push', () => {
    const span = beltSpan(0.15, 0.065, 0.25);
    expect(tensionFromDeflection(20, span, span / 64)).toBeCloseTo(320, 9);
  });
});

describe('wrap of a section', () => {
  it('[SHIG Ex. 17-4 friction] what the usual wrap leaves of half a turn, and a third of a turn of it', () => {
    // Euler with 0.5123, by hand: (g − 1)/(g + 1) is .667 at 180°, .614 at 160°, .490 at 120°.
    expect(wrapShare('v-10', Math.PI) ** -1).toBeCloseTo(0.614 / 0.667, 2);
    expect(wrapShare('v-13', 120 * degree)).toBeCloseTo(0.49 / 0.614, 2);
    expect(wrapShare('two-v-13', beltPractice.usualWrap)).toBe(1);
    // The usual wrap is that of the worked geometry, 160.42°, rounded.
    expect(Math.abs(beltPractice.usualWrap - smallPulleyWrap(0.15, 0.065, 0.25)) / degree).toBeLessThan(0.5);
  });

  it('[law] it is the ratio of the greatest pulls at one tension', () => {
    for (const section of beltSectionNames)
      for (const wrap of [70, 110, 150, 210]) {
        const pull = (angle: number): number =>
          greatestPull(
            grip(vBeltFriction(36 * degree), beltSection(section).grooveAngle, angle, 0, 60, 2.5),
            0,
          );
        const ratio = pull(wrap * degree) / pull(beltPractice.usualWrap);
        expect(wrapShare(section, wrap * degree)).toBeCloseTo(ratio, 12);
      }
  });
});

describe('slip', () => {
  const out = { slip: 0, dByLoad: 0 };

  it('[limit] creep below capacity, full slip above', () => {
    beltSlip(0, out);
    expect(out.slip).toBeCloseTo(0, 9);
    beltSlip(0.8, out);
    // A sound belt creeps by 1–2 % at most (textbook).
    expect(out.slip).toBeLessThan(0.015);
    beltSlip(1.6, out);
    expect(out.slip).toBeGreaterThan(0.999);
    expect(slipHeat(4, 600, 0.5)).toBe(1200);
  });

  it('[law] rises everywhere, stays below 1, slope equals the difference', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 3, noNaN: true }), (load) => {
        const step = 1e-6;
        beltSlip(load + step, out);
        const above = out.slip;
        beltSlip(load - step, out);
        const slope = (above - out.slip) / (2 * step);
        beltSlip(load, out);
        expect(Math.abs(out.dByLoad - slope)).toBeLessThan(1e-7);
        expect(out.dByLoad).toBeGreaterThanOrEqual(0);
        expect(out.slip).toBeLessThanOrEqual(1);
      }),
      { seed: 71, numRuns: 200 },
    );
  });

  it('[limit] a slack belt, or one lifted by its own speed, carries nothing', () => {
    expect(greatestPull(grip(0.2, 0.63, 2.8, 0.1, 0, 2.5), 0)).toBe(0);
    expect(greatestPull(grip(0.2, 0.63, 2.8, 0.1, 20, 2.5), 100)).toBe(0);
  });
});
