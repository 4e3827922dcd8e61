import type { FamilyModel } from '../model.ts';
import {
  backlight, badJoint, bridge, bulk, bulkCapacitor, controller, diode, failing, fuse, mainRail, mains, noFault, resistor, standby,
  takes, transistor,
} from '../parts.ts'; // prettier-ignore

/**
 * Two boost transistors in parallel, and a rectifier pair with its clamp across the same nodes. The clamp D13 is the usual culprit on
 * the 18 V rail, but the bench, which stops at the first doubt, renews the rectifiers D11 and D12 by habit.
 */
export const CURLEW: FamilyModel = {
  name: 'CURLEW-60',
  boost: true,
  weight: 28,
  since: Date.UTC(2025, 0, 1),
  parts: [
    fuse('F1'),
    bridge('BR1', 0.5),
    transistor('Q1', 'boost drain/boost source', 210e3, 12e6),
    transistor('Q2', 'boost drain/boost source', 210e3, 12e6),
    diode('D1', 'boost drain/bulk', 0.41),
    resistor('R1', 'boost source/primary ground', 0.05),
    bulkCapacitor('C1', 190e3, 220e-6),
    transistor('Q4', 'main drain/main source', Infinity, Infinity),
    controller('U1', 'D→GND', 'standby drain/primary ground', 560e3, 1.8e6),
    diode('D2', '12V winding/12V standby', 0.33),
    diode('D11', '18V winding/18V main', 0.37),
    diode('D12', '18V winding/18V main', 0.37),
    diode('D13', '18V winding/18V main', 0.37),
    transistor('Q3', 'backlight drain/backlight source', 48e6, 60e6),
    diode('D21', 'backlight drain/backlight', 0.48),
    transistor('Q5', 'backlight 2 drain/backlight 2 source', 48e6, 60e6),
    diode('D22', 'backlight 2 drain/backlight 2', 0.48),
    controller('U2', 'OUT→GND', 'backlight gate/secondary ground', 52e3, 300e3),
  ],
  rails: [mains, bulk(390), standby(12), mainRail(18), backlight(186), backlight(186, 'backlight 2')],
  habit: ['F1', 'Q1', 'Q2', 'D11', 'D12'],
  stories: [
    failing(
      '18 V clamp',
      34,
      [[['D13', 'shorted'], 8], [['D13', 'leaky'], 1], [['D11', 'shorted'], 1], [['D12', 'shorted'], 1]],
      [],
      [['light on but will not start', 6], ['clicking or cycling', 4], ['starts then shuts down', 1]],
    ),
    failing(
      'boost transistors',
      28,
      [[['Q1', 'shorted'], 3], [['Q2', 'shorted'], 2]],
      [
        takes('Q2', 'shorted', 0.45, 'Q1'), takes('Q1', 'shorted', 0.45, 'Q2'), takes('F1', 'open', 0.95), takes('R1', 'open', 0.5),
        takes('BR1', 'shorted', 0.35), takes('D1', 'leaky', 0.08),
      ],
      [['no standby light', 5], ['blows the house breaker', 4], ['burnt smell', 2]],
    ),
    failing(
      'boost not running',
      5,
      [[['R1', 'open'], 1]],
      [],
      [['starts then shuts down', 3], ['flicker', 1]],
      { bulk: 'not boosted' },
    ),
    failing(
      'main switch',
      6,
      [[['Q4', 'shorted'], 1]],
      [takes('F1', 'open', 0.5)],
      [['light on but will not start', 3], ['no standby light', 2]],
    ),
    failing(
      'standby controller',
      8,
      [[['U1', 'shorted'], 3], [['U1', 'leaky'], 1]],
      [takes('F1', 'open', 0.4), takes('D2', 'shorted', 0.15)],
      [['no standby light', 5], ['clicking or cycling', 1]],
    ),
    failing(
      'backlight transistors',
      16,
      [[['Q3', 'shorted'], 3], [['Q5', 'shorted'], 3], [['D21', 'shorted'], 1]],
      [takes('U2', 'leaky', 0.35), takes('D21', 'shorted', 0.12, 'Q3'), takes('D22', 'shorted', 0.12, 'Q5')],
      [['sound but no picture', 6], ['starts then shuts down', 3], ['flicker', 1]],
    ),
    failing(
      'backlight driver',
      3,
      [[['U2', 'open'], 1]],
      [],
      [['sound but no picture', 1]],
      { backlight: 0.12, 'backlight 2': 0.12 },
    ),
    badJoint(4, [['flicker', 2], ['starts then shuts down', 2]], { 'backlight 2': 1.3 }),
    noFault(4),
  ],
}; // prettier-ignore
