/**
 * The two vessels as a textbook would do them: concentrations, classical Runge-Kutta of fixed step, the pH by halving, and
 * switches looked at at the end of each step. Written straight from the equations, without any code of the twin.
 */

/** Td, Ts, Vd, Vs, Ms, O2, DIC, TA, Ca, NH, NO2, NO3. */
const START = [25.5, 25.5, 406, 39, 15.964375, 205, 2000, 2300, 10280, 1, 0.3, 50];
const STATES = START.length;
const RHO = 1.025;
const RC = RHO * 3993;

interface Devices {
  heater: boolean;
  topUp: boolean;
  fan: boolean;
  lamp: boolean;
  pump: boolean;
  dose: number;
}

function saturation(celsius: number): number {
  return 0.61094 * Math.exp((17.625 * celsius) / (celsius + 243.04));
}

/** Hydrogen ion by halving the range of pH sixty times, mol/kg. */
function hydrogen(k1: number, k2: number, kb: number, kw: number, boron: number, dic: number, ta: number): number {
  let low = 2;
  let high = 13;
  for (let turn = 0; turn < 60; turn++) {
    const middle = (low + high) / 2;
    const h = 10 ** -middle;
    const parts = h * h + k1 * h + k1 * k2;
    const found = (dic * (k1 * h + 2 * k1 * k2)) / parts + (boron * kb) / (kb + h) + kw / h - h;
    if (found < ta) low = middle;
    else high = middle;
  }
  return 10 ** (-(low + high) / 2);
}

function slope(t: number, y: Float64Array, on: Devices, out: Float64Array): void {
  const [td, ts, vd, vs, ms, o2, dic, ta, ca, nh, no2, no3] = y;
  const tr = 22 + 1.5 * Math.sin((2 * Math.PI * (t - 9)) / 24) + 5 * Math.exp(-(((t - 264) / 30) ** 2));
  const v = vd + vs;
  const s = (1000 * ms) / (RHO * v);
  const k = td + 273.15;
  const qr = on.pump ? 3000 : 0;
  const qw = 204.1241452 * Math.max(0, vd - 400) ** 1.5;
  const e = 0.06 * (saturation(td) - 0.55 * saturation(tr)) * (on.fan ? 2.5 : 1);
  const a = on.topUp ? 60 : 0;
  const qa = 0.25;
  const light = on.lamp ? Math.max(0, 300 * Math.sin((Math.PI * ((t % 24) - 10)) / 12)) : 0;
  const ph = Math.tanh(light / 150);
  const root = Math.sqrt(s);
  const ln = Math.log(k);
  const k1 = 10 ** -(3633.86 / k - 61.2172 + 9.6777 * ln - 0.011555 * s + 0.0001152 * s ** 2);
  const k2 = 10 ** -(471.78 / k + 25.929 - 3.16967 * ln - 0.01781 * s + 0.0001122 * s ** 2);
  const kb = Math.exp(
    (-8966.9 - 2890.53 * root - 77.942 * s + 1.728 * s * root - 0.0996 * s ** 2) / k +
      148.0248 +
      137.1942 * root +
      1.62142 * s -
      (24.4344 + 25.085 * root + 0.2474 * s) * ln +
      0.053105 * root * k,
  );
  const kw = Math.exp(148.9652 - 13847.26 / k - 23.6521 * ln + (118.67 / k - 5.977 + 1.0495 * ln) * root - 0.01615 * s);
  const k0 = Math.exp(
    -60.2409 +
      93.4517 * (100 / k) +
      23.3585 * Math.log(k / 100) +
      s * (0.023517 - 0.023656 * (k / 100) + 0.0047036 * (k / 100) ** 2),
  );
  const ksp =
    10 **
    (-171.945 -
      0.077993 * k +
      2903.293 / k +
      71.595 * Math.log10(k) +
      (-0.068393 + 0.0017276 * k + 88.135 / k) * root -
      0.10018 * s +
      0.0059415 * s * root);
  const h = hydrogen(k1, k2, kb, kw, (0.000416 * s) / 35, dic * 1e-6, ta * 1e-6);
  const parts = h * h + k1 * h + k1 * k2;
  const co2 = (dic * h * h) / parts;
  const om = (ca * ((dic * k1 * k2) / parts) * 1e-12) / ksp;
  const x = Math.log((298.15 - td) / k);
  const o2s = Math.exp(
    5.80871 +
      3.20291 * x +
      4.17887 * x ** 2 +
      5.10006 * x ** 3 -
      0.0986643 * x ** 4 +
      3.80369 * x ** 5 +
      s * (-0.00701577 - 0.00770028 * x - 0.0113864 * x ** 2 - 0.00951519 * x ** 3) -
      2.75915e-7 * s ** 2,
  );
  const q = 2 ** ((td - 25) / 10);
  const lim = o2 / (o2 + 20);
  const r = 9 * q * lim;
  const p = 22 * ph;
  const g = om > 1 ? 0.35 * (om - 1) * (0.3 + 0.7 * ph) : 0;
  const gas = on.pump ? 1.5 : 0.2;
  const n1 = ((1.6 * q * nh) / (2 + nh)) * lim;
  const n2 = ((2 * q * no2) / (3 + no2)) * lim;
  const up = 0.01 * no3;
  const ex = 0.9 * (1 + 0.6 * Math.sin((2 * Math.PI * (t - 6)) / 24));
  const dil = (a - e) / v;
  const w = qa / v;
  out[0] = (qr * (ts - td)) / vd + (3600 * ((60 * light) / 300 - 8 * (td - tr) - (e * 2.45e6) / 3600)) / (RC * vd);
  out[1] =
    (qw * (td - ts) + (a + qa) * (tr - ts)) / vs +
    (3600 * ((on.heater ? 300 : 0) + (on.pump ? 30 : 0) - 2 * (ts - tr))) / (RC * vs);
  out[2] = qr - qw - e;
  out[3] = qw - qr + a;
  out[4] = (qa * RHO * (35 - s)) / 1000;
  out[5] = p - r - 1.5 * n1 - 0.5 * n2 + gas * (o2s - o2) + w * (210 - o2) - o2 * dil;
  out[6] = -p + r - g + 0.9 * gas * (450 * k0 - co2) + 0.5 * on.dose + w * (2000 - dic) - dic * dil;
  out[7] = -2 * g + ex - 2 * n1 + up + on.dose + w * (2300 - ta) - ta * dil;
  out[8] = -g + 0.5 * on.dose + w * (10280 - ca) - ca * dil;
  out[9] = ex - n1 - w * nh - nh * dil;
  out[10] = n1 - n2 - w * no2 - no2 * dil;
  out[11] = n2 - up - w * no3 - no3 * dil;
}

function look(t: number, y: Float64Array, on: Devices): void {
  if (on.heater ? y[1] >= 25.7 : y[1] <= 25.3) on.heater = !on.heater;
  if (on.topUp ? y[3] >= 39.5 : y[3] <= 38) on.topUp = !on.topUp;
  if (on.fan ? y[0] <= 25.9 : y[0] >= 26.2) on.fan = !on.fan;
  const soon = t + 1e-9;
  on.lamp = soon % 24 >= 10 && soon % 24 < 22;
  on.pump = soon < 216 || soon >= 218;
  const hour = soon % 1;
  on.dose = hour >= 0.5 && hour < 0.5 + 1 / 60 ? 150 : 0;
}

/** Fourteen days of variant A with so many steps an hour (a multiple of 60); the state at the end of each day. */
export function runByTextbook(stepsAnHour: number): Float64Array[] {
  const y = Float64Array.from(START);
  const on: Devices = { heater: false, topUp: false, fan: false, lamp: false, pump: true, dose: 0 };
  const days: Float64Array[] = [];
  const h = 1 / stepsAnHour;
  const [a, b, c, d, mid] = Array.from({ length: 5 }, () => new Float64Array(STATES));
  for (let step = 0; step < 336 * stepsAnHour; step++) {
    const t = step / stepsAnHour;
    look(t, y, on);
    slope(t, y, on, a);
    for (let i = 0; i < STATES; i++) mid[i] = y[i] + (h / 2) * a[i];
    slope(t + h / 2, mid, on, b);
    for (let i = 0; i < STATES; i++) mid[i] = y[i] + (h / 2) * b[i];
    slope(t + h / 2, mid, on, c);
    for (let i = 0; i < STATES; i++) mid[i] = y[i] + h * c[i];
    slope(t + h, mid, on, d);
    for (let i = 0; i < STATES; i++) y[i] += (h / 6) * (a[i] + 2 * b[i] + 2 * c[i] + d[i]);
    if ((step + 1) % (24 * stepsAnHour) === 0) days.push(y.slice());
  }
  return days;
}
