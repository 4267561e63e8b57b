import type { CostTable } from "../../../server/calc/assignment.ts";
import { leastCostAssignment } from "../../../server/calc/assignment.ts";
import { permissibleUnbalance } from "../../../server/calc/balance-grade.ts";
import { selectiveAssembly } from "../../../server/calc/selective-assembly.ts";
import type { PublishedCheck, UncheckedComputation } from "./check.ts";
import { figures } from "./check.ts";

const group = 10;
const munkres = "public test suite of the Python package munkres (also repeated by other public repositories)";
const scipyTests = "public test suite of SciPy, linear_sum_assignment";
const scipyRun = "SciPy 1.17.1, linear_sum_assignment, NumPy generator seed 286";
const highs =
  "SciPy 1.17.1, milp (HiGHS) for the spread and linear_sum_assignment for the squares, NumPy generator seed 21940";

/** Tables drawn by the generator that the oracle was run on. */
const drawn6x6: CostTable = [
  [304, 428, 235, 772, 698, 81],
  [970, 292, 545, 633, 805, 863],
  [299, 389, 136, 259, 872, 758],
  [754, 142, 200, 607, 584, 760],
  [585, 758, 626, 217, 90, 939],
  [927, 165, 811, 26, 804, 64],
];

const drawn9x12: CostTable = [
  [33, 87, 430, 163, 939, 47, 769, 725, 545, 542, 844, 485],
  [323, 405, 565, 654, 943, 133, 222, 509, 341, 226, 527, 501],
  [755, 305, 828, 420, 184, 106, 859, 355, 191, 33, 958, 983],
  [67, 392, 278, 965, 117, 726, 5, 946, 764, 344, 459, 488],
  [439, 242, 304, 889, 242, 39, 993, 179, 881, 229, 777, 8],
  [698, 558, 841, 425, 616, 118, 738, 736, 117, 650, 489, 873],
  [623, 718, 753, 290, 800, 808, 889, 890, 232, 204, 738, 182],
  [276, 677, 681, 484, 455, 530, 317, 936, 678, 192, 946, 981],
  [446, 389, 3, 326, 702, 79, 989, 622, 57, 145, 389, 26],
];

const drawn24x24: CostTable = [
  [283, 879, 300, 781, 835, 437, 498, 880, 536, 818, 842, 236, 92, 383, 233, 949, 303, 937, 257, 350, 88, 411, 76, 376],
  [
    572, 930, 364, 973, 321, 616, 868, 457, 364, 955, 152, 465, 284, 818, 870, 212, 569, 876, 858, 41, 752, 314, 151,
    690,
  ],
  [
    243, 376, 299, 61, 804, 835, 265, 640, 103, 924, 906, 996, 930, 468, 730, 922, 601, 756, 761, 532, 857, 414, 967,
    371,
  ],
  [594, 802, 757, 432, 199, 754, 68, 226, 928, 3, 857, 838, 114, 865, 404, 876, 19, 741, 946, 81, 847, 465, 393, 923],
  [
    636, 47, 140, 864, 497, 799, 667, 393, 205, 467, 473, 612, 738, 203, 155, 666, 605, 690, 249, 625, 48, 120, 263,
    653,
  ],
  [204, 908, 54, 28, 978, 720, 843, 473, 738, 855, 314, 809, 156, 165, 696, 180, 32, 723, 945, 87, 216, 94, 81, 932],
  [
    513, 882, 993, 566, 612, 515, 436, 974, 597, 295, 632, 390, 959, 155, 726, 366, 377, 44, 773, 253, 20, 266, 770,
    726,
  ],
  [
    765, 437, 661, 300, 971, 34, 928, 429, 553, 894, 375, 819, 987, 337, 656, 484, 734, 449, 756, 461, 889, 945, 958,
    992,
  ],
  [
    145, 25, 463, 392, 288, 263, 139, 861, 123, 673, 830, 177, 357, 814, 416, 694, 751, 196, 885, 805, 190, 780, 361,
    874,
  ],
  [
    553, 546, 848, 890, 264, 299, 957, 913, 681, 672, 541, 811, 616, 364, 402, 325, 815, 680, 478, 119, 878, 957, 710,
    180,
  ],
  [
    205, 472, 684, 724, 605, 850, 265, 849, 873, 687, 924, 691, 901, 132, 212, 381, 772, 599, 148, 123, 947, 51, 429,
    927,
  ],
  [
    942, 444, 12, 843, 945, 562, 595, 965, 785, 930, 219, 381, 736, 547, 902, 595, 668, 368, 250, 254, 28, 533, 710,
    354,
  ],
  [364, 313, 349, 193, 434, 80, 969, 948, 64, 97, 656, 549, 633, 865, 924, 683, 903, 929, 612, 100, 394, 151, 836, 219],
  [
    754, 720, 601, 253, 439, 858, 929, 568, 635, 714, 163, 634, 344, 90, 75, 999, 560, 627, 732, 868, 693, 122, 251,
    797,
  ],
  [
    515, 103, 485, 372, 196, 855, 479, 234, 587, 258, 810, 474, 195, 787, 88, 70, 619, 267, 143, 258, 521, 751, 459,
    863,
  ],
  [
    539, 965, 302, 998, 195, 958, 874, 844, 182, 681, 132, 900, 250, 310, 87, 303, 238, 534, 655, 945, 355, 508, 480,
    563,
  ],
  [
    681, 334, 526, 640, 231, 906, 267, 90, 232, 981, 574, 318, 569, 719, 374, 729, 969, 138, 120, 566, 244, 140, 952,
    698,
  ],
  [
    784, 207, 985, 166, 517, 873, 584, 930, 968, 679, 743, 202, 987, 604, 367, 258, 160, 720, 612, 51, 467, 422, 13,
    515,
  ],
  [275, 596, 29, 960, 907, 204, 998, 169, 290, 306, 112, 896, 342, 480, 706, 971, 38, 887, 280, 997, 621, 495, 909, 49],
  [
    356, 805, 934, 454, 880, 172, 992, 82, 144, 950, 643, 749, 602, 332, 328, 669, 672, 55, 593, 799, 936, 873, 437,
    193,
  ],
  [999, 211, 319, 937, 910, 135, 975, 264, 652, 814, 907, 191, 356, 19, 35, 964, 653, 104, 900, 160, 520, 284, 831, 71],
  [539, 275, 449, 444, 808, 3, 64, 936, 184, 511, 457, 503, 3, 42, 872, 688, 359, 192, 972, 309, 335, 607, 37, 446],
  [
    878, 111, 775, 326, 718, 365, 884, 447, 567, 797, 132, 797, 579, 774, 671, 587, 847, 279, 682, 321, 53, 203, 779,
    204,
  ],
  [690, 322, 448, 774, 524, 91, 291, 254, 135, 42, 766, 327, 624, 875, 406, 220, 73, 477, 553, 586, 943, 444, 486, 459],
];

function total(cost: CostTable): () => number {
  return () => figures(leastCostAssignment(cost)).total;
}

function assignment(
  what: string,
  source: string,
  kind: "read" | "oracle-run",
  expected: number,
  cost: CostTable,
): PublishedCheck {
  return { computation: "assignment", group, what, source, kind, expected, tolerance: 1e-9, got: total(cost) };
}

interface DrawnSet {
  readonly title: string;
  readonly limits_um: readonly [number, number];
  readonly bores_um: readonly number[];
  readonly pistons_um: readonly number[];
  readonly spread_um: number;
  readonly squares_um2: number;
}

const sets: readonly DrawnSet[] = [
  {
    title: "9 bores, 9 pistons",
    limits_um: [105, 142],
    bores_um: [98015, 98017, 98015, 98000, 98017, 98007, 98012, 98020, 98004],
    pistons_um: [97888, 97887, 97881, 97884, 97887, 97886, 97886, 97884, 97883],
    spread_um: 13,
    squares_um2: 264.25,
  },
  {
    title: "9 bores, 11 pistons",
    limits_um: [105, 142],
    bores_um: [98017, 98009, 98009, 98001, 98004, 98017, 98014, 98005, 98014],
    pistons_um: [97882, 97894, 97883, 97886, 97892, 97880, 97892, 97892, 97885, 97890, 97881],
    spread_um: 4,
    squares_um2: 12.25,
  },
  {
    title: "14 bores, 16 pistons",
    limits_um: [100, 150],
    bores_um: [98021, 98022, 98016, 98021, 98022, 98012, 98014, 98022, 98014, 98021, 98022, 98013, 98016, 98017],
    pistons_um: [
      97890, 97894, 97890, 97887, 97893, 97890, 97887, 97893, 97883, 97880, 97889, 97888, 97894, 97885, 97891, 97895,
    ],
    spread_um: 4,
    squares_um2: 158.0,
  },
];

function assembled({ bores_um, pistons_um, limits_um }: DrawnSet) {
  return figures(
    selectiveAssembly(
      bores_um.map((size, index) => ({ name: `bore ${index + 1}`, size_mm: size / 1000 })),
      pistons_um.map((size, index) => ({ name: `piston ${index + 1}`, size_mm: size / 1000 })),
      { least_mm: limits_um[0] / 1000, greatest_mm: limits_um[1] / 1000 },
    ),
  );
}

function setChecks(set: DrawnSet): PublishedCheck[] {
  const middle_mm = (set.limits_um[0] + set.limits_um[1]) / 2000;
  const shared = { computation: "selective-assembly", group, source: highs, kind: "oracle-run" } as const;
  return [
    {
      ...shared,
      what: `${set.title}: least spread, um`,
      expected: set.spread_um,
      tolerance: 1e-6,
      got: () => assembled(set).spread_mm * 1000,
    },
    {
      ...shared,
      what: `${set.title}: least sum of squares about the middle, um2`,
      expected: set.squares_um2,
      tolerance: 1e-4,
      got: () => assembled(set).matches.reduce((sum, match) => sum + ((match.clearance_mm - middle_mm) * 1000) ** 2, 0),
    },
  ];
}

export const checks: PublishedCheck[] = [
  assignment("3 x 3", munkres, "read", 850, [
    [400, 150, 400],
    [400, 450, 600],
    [300, 225, 300],
  ]),
  assignment("3 x 4", munkres, "read", 452, [
    [400, 150, 400, 1],
    [400, 450, 600, 2],
    [300, 225, 300, 3],
  ]),
  assignment("3 x 3, second", munkres, "read", 18, [
    [10, 10, 8],
    [9, 8, 1],
    [9, 7, 4],
  ]),
  assignment("3 x 4, second", munkres, "read", 15, [
    [10, 10, 8, 11],
    [9, 8, 1, 1],
    [9, 7, 4, 10],
  ]),
  assignment("3 x 3 of decimal costs", munkres, "read", 19.5, [
    [10.1, 10.2, 8.3],
    [9.4, 8.5, 1.6],
    [9.7, 7.8, 4.9],
  ]),
  assignment("3 x 4 of decimal costs", munkres, "read", 15.2, [
    [10.01, 10.02, 8.03, 11.04],
    [9.05, 8.06, 1.07, 1.08],
    [9.09, 7.1, 4.11, 10.12],
  ]),
  assignment("4 x 4 with forbidden pairs", munkres, "read", 20, [
    [4, 5, 6, null],
    [1, 9, 12, 11],
    [null, 5, 4, null],
    [12, 12, 12, 10],
  ]),
  assignment("3 x 3 with only one way left", scipyTests, "read", 18, [
    [10, null, null],
    [null, null, 1],
    [null, 7, null],
  ]),
  assignment("3 x 3, example of the reference page", "SciPy reference, linear_sum_assignment, example", "read", 5, [
    [4, 1, 3],
    [2, 0, 5],
    [3, 2, 2],
  ]),
  assignment("6 x 6, drawn", scipyRun, "oracle-run", 988, drawn6x6),
  assignment("9 x 12, drawn", scipyRun, "oracle-run", 952, drawn9x12),
  assignment("24 x 24, drawn", scipyRun, "oracle-run", 1757, drawn24x24),
  ...sets.flatMap(setChecks),
  {
    computation: "balance-grade",
    group,
    what: "G 2.5, 100 kg, 3000 rpm, g.mm",
    source: "public test suite of NeqSim, RotorUnbalanceAssessmentTest",
    kind: "read",
    expected: 795.77,
    tolerance: 0.01,
    got: () => figures(permissibleUnbalance(2.5, 100, 3000, 1)).total_g_mm,
  },
  {
    computation: "balance-grade",
    group,
    what: "constant of the rule U = 9549 G m / n",
    source: "erbessd-instruments.com, balancing tolerance: weight x grade x 9549 / rpm",
    kind: "read",
    expected: 9549,
    tolerance: 0.5,
    got: () => figures(permissibleUnbalance(1, 1, 1, 1)).total_g_mm,
  },
  {
    computation: "balance-grade",
    group,
    what: "share of one of two planes",
    source: "erbessd-instruments.com, note 2: half of the recommended residual unbalance for each plane",
    kind: "read",
    expected: 0.5,
    tolerance: 0,
    got: () => {
      const two = figures(permissibleUnbalance(6.3, 8, 2700, 2));
      return two.perPlane_g_mm / two.total_g_mm;
    },
  },
];

export const unchecked: UncheckedComputation[] = [
  {
    computation: "weight-set",
    group,
    why: "differences of masses; the pairing of least difference is held against brute force, no printed set was found",
  },
];
