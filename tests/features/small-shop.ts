/** A small invented shop for the tests of features: a nine-cylinder radial with three measured features, one job half done. */

export const PEOPLE = `person ATH "Ada Thorne"
  role fitter from 2024-01-08
  role run-operator from 2024-01-08
  licence "SEW-03" from 2024-06-30 until 2027-06-30
person RPE "Ruth Pell"
  role inspector from 2024-01-08
person OLD "Sæmund Óskarsson"
  role fitter from 2010-01-01 until 2020-12-31
`;

export const INSTRUMENTS = `instrument BG-2 "Bore gauge 50 to 160 mm"
  range 50..160 mm
  uncertainty 0.002 mm
  calibrated 2026-01-10 until 2027-01-10 "certificate 881"
instrument BG-9 "Bore gauge, lapsed"
  range 50..160 mm
  uncertainty 0.002 mm
  calibrated 2024-01-10 until 2025-01-10
instrument MIC-25 "Micrometer 0 to 25 mm"
  range 0..25 mm
  uncertainty 0.001 mm
  calibrated 2026-01-10 until 2027-01-10
instrument TW-2 "Torque wrench 20 to 100 N.m"
  range 20..100 N.m
  length 300 mm
  calibrated 2026-01-10 until 2027-01-10
instrument PG-3 "Oil pressure gauge"
  range 0..150 psi
  calibrated 2026-01-10 until 2027-01-10
instrument TA-1 "Tachometer"
  range 0..4000 rpm
  calibrated 2026-01-10 until 2027-01-10
stand TS-1 "Run stand, north bay"
  channel crank.speed with TA-1
  channel oil.pressure with PG-3
`;

export const TYPE = `engine-type Curlew-9 "Nine-cylinder radial"
  layout radial 9
  numbering clockwise from rear
  rotation clockwise seen from rear
  bore 98 mm
  stroke 110 mm
  places cylinder[1..9] "Barrels"
  places cylinder.bore[1..9/head,skirt]
  places piston.pin[1..9]
  places baffle[1..9]
  life "CK-9120" 3000 h
limits Curlew-9 revision C from 2025-11-01 "Sheet 4"
  limit cylinder.bore[1..9] new 98.000..98.022 mm wear max 98.070 mm ref "4-2"
  limit taper cylinder.bore wear max 0.030 mm
  limit piston.pin[1..9] new 23.990..24.000 mm wear min 23.980 mm ref "4-5"
  limit oil.pressure min 55 psi max 85 psi while crank.speed 1400..2300 rpm
  torque cylinder.nut[1..9/1..2] 38..42 N.m oiled locking wire ref "4-9"
  compression-limit differential supply 80 psi orifice 0.040 in warm min 60 psi spread 15 psi ref "4-9"
run-in Curlew-9
  step 1 for 2 min at crank.speed 700..900 rpm
task strainer-clean Curlew-9 every 25 h or 6 months first 5 h
bulletin B-07 Curlew-9 "Cam ring to revision C" mandatory by 2026-12-31
alert A-3 2026-03-01 "Guides below hardness"
  suspect "CG-1102" batch B71
route top-overhaul
  step receive needs sign fitter
  step inspect after receive needs limits wear cylinder, piston; sign fitter; sign inspector independent
  step build after inspect needs torque all; sign fitter
`;

export const ENGINE = `engine C9-0412 Curlew-9
  owner "Fenland Flying Museum"
  hours tsn 1184.3 h tso 402.1 h on 2026-02-16
`;

export const JOB = `job J26-014 engine C9-0412 route top-overhaul limits C
  scope "Top overhaul"
  received 2026-02-16
entry E1 2026-02-16 receive "Receipt" job J26-014
  labour ATH 2 h receive
  sign fitter ATH 2026-02-16
`;

export const INSPECT = `entry E2 2026-02-19 inspect "Barrels" job J26-014
  grid cylinder.bore/mm head skirt with BG-2
  1 98.031 98.019
  2 98.083 98.026
  3 ? ?
  defect D1 baffle[4] "Cracked at the lower lug"
`;

export const SHOP: Record<string, string> = {
  "people.gudgeon": PEOPLE,
  "instruments.gudgeon": INSTRUMENTS,
  "type.gudgeon": TYPE,
  "engine.gudgeon": ENGINE,
  "job.gudgeon": JOB,
};

/** The shop with one file more, or another in place of one. */
export function withFile(text: string, path = "work.gudgeon"): Record<string, string> {
  return { ...SHOP, [path]: text };
}
