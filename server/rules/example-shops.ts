/** Small shops that the examples of rule pages begin with, so that a page shows what matters. */

/** One gauge in calibration, one type with a limit for its bores, one job; the example adds entries. */
export const BORES = `engine-type Curlew-9
  places cylinder.bore[1..9]
limits Curlew-9 revision C from 2025-11-01
  limit cylinder.bore[1..9] new 98.000..98.022 mm wear max 98.070 mm ref "4-2"
instrument BG-2 "Bore gauge 50 to 100 mm"
  range 50..100 mm
  uncertainty 0.003 mm
  calibrated 2026-01-10 until 2027-01-10
engine C9-0412 Curlew-9
job J26-014 engine C9-0412 limits C
`;

/** The same job under a route, with steps that ask for worn and for new limits. */
export const ROUTED = `${BORES.replace("job J26-014 engine C9-0412 limits C", "route top-overhaul\n  step inspect needs limits wear cylinder\n  step build after inspect needs limits new cylinder; torque cylinder\n  step close after build\njob J26-014 engine C9-0412 route top-overhaul limits C")}`;

/** A wrench, a nut to be torqued, one job. */
export const NUTS = `engine-type Curlew-9
  places cylinder.nut[1..2/1..3]
limits Curlew-9 revision C from 2025-11-01
  torque cylinder.nut[1..2/1..3] 38..42 N.m oiled ref "4-9"
instrument TW-1 "Torque wrench 20 to 100 N.m"
  range 20..100 N.m
  length 300 mm
  calibrated 2026-01-10 until 2027-01-10
engine C9-0412 Curlew-9
job J26-014 engine C9-0412 limits C
`;

/** A run-in schedule of the type, as the examples of the run rules use it. */
export const RUN_IN = `run-in Curlew-9
  start oil.pressure min 40 psi within 30 s
  warm oil.temp min 40 C before crank.speed 1200 rpm
  step 1 for 10 min at crank.speed 700..900 rpm cht max 160 C
  step 2 for 20 min at crank.speed 1000..1400 rpm cht max 180 C
  cool cht max 20 C/min
`;
