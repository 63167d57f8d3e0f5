"""Times of recovery by brute force, as expected values for the tests of the recovery engine.

A second implementation with nothing in common with the engine but the physical choices that its documentation states:
equations of state straight from CoolProp at every step, scipy's stiff solver, its own flow formulas.

    tube      G^2 (f L/D + K) = 2 Int rho dp - 2 G^2 ln(rho1/rho2), isothermal, real density; f laminar or by Colebrook;
              the entrance and exit loss K is taken in front of the tube; choked where G = rho sqrt(dp/drho at constant T)
    opening   Cd max over the throat of rho sqrt(2 (h0 - h)) along the isentrope, real gas
    machine   displacement eta rho(p_s, T); eta = e (1 - pu/p_s), or with clearance e (1 - c ((pd/ps)^(1/n) - 1))
    liquid    sum of (f L/D + K) G^2/(2 rho) and of (G/Cd)^2/(2 rho) = min(p1 - p2, p1 - F_F pv)
    system    liquid at its own temperature, vapour over it at the dew pressure of the liquid and the temperature of the
              surroundings; then vapour alone

Run: python recovery_cases.py > recovery.csv   (needs CoolProp, numpy and scipy)
"""

import math
import sys

import CoolProp
import CoolProp.CoolProp as CP
import numpy as np
from CoolProp import AbstractState
from scipy.integrate import solve_ivp
from scipy.interpolate import CubicSpline, PchipInterpolator
from scipy.optimize import brentq

R = 8.314462618
ATM = 101325.0
ROUGHNESS = 1.5e-6
PUSH_LIMIT = 3.9e6
FLUIDS = {
    'R-410A': 'R410A', 'R-407C': 'R407C', 'R-134a': 'R134a', 'R-290': 'R290', 'R-32': 'R32', 'R-22': 'R22',
    'R-744': 'CarbonDioxide', 'R-717': 'Ammonia', 'R-1234yf': 'R1234yf', 'R-404A': 'R404A',
}


class Fluid:
    def __init__(self, name, ambient):
        self.eos = AbstractState('HEOS', FLUIDS[name])
        self.sat = AbstractState('HEOS', FLUIDS[name])
        self.name = FLUIDS[name]
        self.ambient = ambient
        self.molar_mass = self.eos.molar_mass()
        self.critical = CP.PropsSI('pcrit', self.name)
        self.dew = self.saturated(ambient, 1, 'p')
        self.bubble = self.saturated(ambient, 0, 'p')
        # density and its integral at the temperature of the surroundings
        p = np.concatenate([[0.0], np.geomspace(10.0, self.dew, 1500)])
        rho = np.array([self.density(x) for x in p])
        self.rho = CubicSpline(p, rho)
        self.rho_integral = self.rho.antiderivative()
        self.rho_slope = self.rho.derivative()
        self.end_slope = float(self.rho(self.dew)) / self.dew
        self.mu = CP.PropsSI('V', 'T', ambient, 'P', 1000.0, self.name)
        cp0 = CP.PropsSI('CP0MASS', 'T', ambient, 'P', 1000.0, self.name)
        self.gamma = cp0 / (cp0 - R / self.molar_mass)

    def density(self, p):
        if p <= 0:
            return 0.0
        if p >= self.dew * (1 - 1e-9):
            return self.saturated(self.ambient, 1, 'rho')
        self.eos.specify_phase(CoolProp.iphase_gas)
        self.eos.update(CoolProp.PT_INPUTS, p, self.ambient)
        return self.eos.rhomass()

    def saturated(self, t, q, what):
        self.sat.update(CoolProp.QT_INPUTS, q, t)
        return {'p': self.sat.p, 'rho': self.sat.rhomass, 'h': self.sat.hmass}[what]()

    # beyond the dew line the density goes on at the compressibility of the dew line
    def rho_at(self, p):
        return float(self.rho(p)) if p <= self.dew else p * self.end_slope

    def integral(self, p):
        if p <= self.dew:
            return float(self.rho_integral(p))
        return float(self.rho_integral(self.dew)) + 0.5 * self.end_slope * (p * p - self.dew * self.dew)

    def slope(self, p):
        return float(self.rho_slope(p)) if p <= self.dew else self.end_slope

    def inverse_integral(self, value, low):
        high = max(low, 1.0) * 2
        while self.integral(high) < value:
            high *= 2
        return brentq(lambda p: self.integral(p) - value, low, high, xtol=1e-9, rtol=1e-12)


def friction(re, relative):
    laminar = 64 / re
    if re <= 2100:
        return laminar

    def colebrook(r):
        g = brentq(lambda x: x + 2 * math.log10(relative / 3.7 + 2.51 * x / r), 0.5, 30)
        return 1 / (g * g)

    if re >= 3500:
        return colebrook(re)
    share = (re - 2100) / 1400
    return (1 - share) * 64 / 2100 + share * colebrook(3500)


def tube_upstream(fluid, mdot, p2, bore, length, loss=1.5):
    g = mdot / (math.pi / 4 * bore * bore)
    f = friction(g * bore / fluid.mu, ROUGHNESS / bore)

    def choking(p):
        return fluid.rho_at(p) ** 2 / fluid.slope(p) - g * g

    high = 1.0
    while choking(high) < 0:
        high *= 2
    exit_ = max(p2, brentq(choking, 1e-6, high, xtol=1e-9) if choking(1e-6) < 0 else p2)

    def miss(p):
        return 2 * (fluid.integral(p) - fluid.integral(exit_)) - g * g * (
            f * length / bore + 2 * math.log(fluid.rho_at(p) / fluid.rho_at(exit_)))

    high = exit_ * 1.0001
    while miss(high) < 0:
        high *= 1.5
    low = exit_ * (1 + 1e-12)
    inner = brentq(miss, low, high, rtol=1e-12) if miss(low) < 0 else exit_
    return fluid.inverse_integral(fluid.integral(inner) + loss * g * g / 2, inner)


class Opening:
    """Mass flux against the throat's pressure, from isentropes of the real gas."""

    def __init__(self, fluid):
        self.fluid = fluid
        self.kept = {}

    def curve(self, p1):
        eos = self.fluid.eos
        eos.specify_phase(CoolProp.iphase_gas)
        eos.update(CoolProp.PT_INPUTS, min(p1, self.fluid.dew * (1 - 1e-7)), self.fluid.ambient)
        h0, s0 = eos.hmass(), eos.smass()
        ratios = np.linspace(1, 0.35, 66)
        g = [0.0]
        eos.unspecify_phase()
        for r in ratios[1:]:
            rho, h = self.isentropic(s0, p1 * r)
            g.append(rho * math.sqrt(max(0, 2 * (h0 - h))))
        return ratios[:len(g)], np.array(g)

    def isentropic(self, s, p):
        """where the isentrope gets wet, vapour and its mist are in equilibrium"""
        eos = self.fluid.eos
        eos.update(CoolProp.PSmass_INPUTS, p, s)
        return eos.rhomass(), eos.hmass()

    def table(self):
        if not self.kept:
            ps = np.geomspace(2e3, self.fluid.dew * 0.999, 25)
            self.kept['curves'] = [(p, *self.curve(p)) for p in ps]
            self.kept['ps'] = ps
        return self.kept

    def flux(self, p1, p2):
        """by interpolation of G/p1 over p1 at one ratio"""
        table = self.table()
        r = p2 / p1
        values = []
        for p, ratios, g in table['curves']:
            k = int(np.argmax(g))
            if r <= ratios[k]:
                values.append(g[k] / p)
            else:
                values.append(float(np.interp(-r, -ratios[:k + 1], g[:k + 1])) / p)
        p = min(max(p1, table['ps'][0]), table['ps'][-1])
        # beyond the dew line as sqrt(rho p)
        beyond = math.sqrt(self.fluid.rho_at(p1) * p1 / (self.fluid.rho_at(p) * p)) * p
        return float(np.interp(p, table['ps'], values)) * beyond


def opening_upstream(opening, mdot, p2, bore, cd):
    area = cd * math.pi / 4 * bore * bore

    def miss(p1):
        return area * opening.flux(p1, p2) - mdot

    high = p2 * 1.001
    while miss(high) < 0:
        high *= 1.4
    return brentq(miss, p2 * (1 + 1e-9), high, rtol=1e-11)


def rig_upstream(case, fluid, opening, mdot, p):
    for part in case['parts']:
        if part[0] == 'tube':
            p = tube_upstream(fluid, mdot, p, part[1], part[2])
        else:
            p = opening_upstream(opening, mdot, p, part[1], part[2])
    return p


def efficiency(case, fluid, ps, pd):
    e = case.get('efficiency', 1)
    c = case.get('clearance')
    if c is None:
        return e * max(0, 1 - case['ultimate'] / ps)
    return e * min(1, max(0, 1 - c * ((pd / ps) ** (1 / fluid.gamma) - 1)))


def suction_for(case, fluid, mdot, pd):
    d = case['displacement']
    c = case.get('clearance')
    zero = case['ultimate'] if c is None else pd * (c / (1 + c)) ** fluid.gamma

    def miss(p):
        return d * efficiency(case, fluid, p, pd) * fluid.rho_at(p) - mdot

    high = max(2 * zero, 1e3)
    while miss(high) < 0:
        high *= 1.5
    return max(case['ultimate'], brentq(miss, zero * (1 + 1e-12) + 1e-9, high, rtol=1e-12)), max(zero, case['ultimate'])


def vapour_flow_table(case, fluid, pd):
    opening = Opening(fluid)
    most = case['displacement'] * fluid.rho_at(fluid.dew)
    mdots = most * np.concatenate([np.geomspace(1e-6, 0.03, 30), np.linspace(0.04, 1, 80)])
    ps, ms = [], []
    lowest = suction_for(case, fluid, mdots[0], pd)[1]
    for mdot in mdots:
        p = rig_upstream(case, fluid, opening, mdot, suction_for(case, fluid, mdot, pd)[0])
        ps.append(p)
        ms.append(mdot)
        if p > fluid.dew * 1.02:
            break
    x = np.log(np.array(ps) - lowest)
    y = np.log(np.array(ms)) - x
    table = PchipInterpolator(x, y, extrapolate=False)

    def flow(p):
        if p <= lowest:
            return 0.0
        z = max(math.log(p - lowest), x[0])
        return math.exp(float(table(min(z, x[-1])))) * (p - lowest)

    return flow, lowest


def liquid_drop(case, rho, mu, mdot):
    total = 0
    for part in case['parts']:
        if part[0] == 'tube':
            bore, length = part[1], part[2]
            g = mdot / (math.pi / 4 * bore * bore)
            total += (friction(g * bore / mu, ROUGHNESS / bore) * length / bore + 1.5) * g * g / (2 * rho)
        else:
            g = mdot / (part[2] * math.pi / 4 * part[1] ** 2)
            total += g * g / (2 * rho)
    return total


def liquid_flow(case, fluid, t, p1, p2):
    rho = fluid.saturated(t, 0, 'rho')
    pv = fluid.saturated(t, 0, 'p')
    mu = CP.PropsSI('V', 'T', t, 'P', pv * 1.0001, fluid.name)
    ff = 0.96 - 0.28 * math.sqrt(pv / fluid.critical)
    drop = min(p1 - p2, p1 - ff * pv)
    if drop <= 0:
        return 0.0
    high = 1e-3
    while liquid_drop(case, rho, mu, high) < drop:
        high *= 2
    return brentq(lambda m: liquid_drop(case, rho, mu, m) - drop, 1e-9, high, rtol=1e-11)


def liquid_to_machine(case, fluid, t, pd):
    p1 = fluid.saturated(t, 0, 'p')
    h = fluid.saturated(t, 0, 'h')

    def swept(ps):
        s = fluid.sat
        s.update(CoolProp.PQ_INPUTS, ps, 0)
        hl, rl = s.hmass(), s.rhomass()
        s.update(CoolProp.PQ_INPUTS, ps, 1)
        hv, rv = s.hmass(), s.rhomass()
        x = (h - hl) / (hv - hl)
        return case['displacement'] * efficiency(case, fluid, ps, pd) / (x / rv + (1 - x) / rl)

    def miss(ps):
        return swept(ps) - liquid_flow(case, fluid, t, p1, ps)

    low = 0.5 * p1
    if miss(low) >= 0:
        flow = liquid_flow(case, fluid, t, p1, low)
    else:
        ps = brentq(miss, low, p1 * (1 - 1e-9), rtol=1e-10)
        flow = swept(ps)
    return min(flow, case.get('liquid_rate', math.inf))


def run(case):
    ambient = case['ambient']
    fluid = Fluid(case['refrigerant'], ambient)
    pd = fluid.saturated(ambient + case.get('approach', 0), 0, 'p')
    flow, lowest = vapour_flow_table(case, fluid, pd)
    v, m, ua, level = case['volume'], case['charge'], case['heat'], case['level']
    rho_v0 = fluid.saturated(ambient, 1, 'rho')
    rho_l0 = fluid.saturated(ambient, 0, 'rho')
    liquid = (m - v * rho_v0) / (1 - rho_v0 / rho_l0)
    mode = case.get('mode', 'vapour')
    coldest = ambient
    dry = 0.0
    p = fluid.dew
    if liquid <= 0:
        p = brentq(lambda x: fluid.rho_at(x) - m / v, 1.0, fluid.dew, rtol=1e-13)
    elif mode == 'push-pull':
        cyl = fluid.saturated(ambient, 1, 'p')
        own = max(fluid.bubble, cyl)

        def excess(p1):
            pushed = case['displacement'] * efficiency(case, fluid, cyl, p1) * rho_v0 / (
                rho_v0 * max(1, p1 / fluid.dew)) * rho_l0
            return liquid_flow(case, fluid, ambient, p1, cyl) - pushed

        p1 = PUSH_LIMIT if excess(PUSH_LIMIT) <= 0 else brentq(excess, own, PUSH_LIMIT, rtol=1e-12)
        dry = liquid / liquid_flow(case, fluid, ambient, p1, cyl)
    else:
        memory = {}

        def liquid_rate(t):
            key = round(t, 3)
            if key not in memory:
                memory[key] = liquid_to_machine(case, fluid, t, pd)
            return memory[key]

        eps = 0.01

        def point(t):
            pp = fluid.saturated(t, 1, 'p')
            return pp, fluid.rho_at(pp), fluid.saturated(t, 0, 'rho')

        def rhs(_, y):
            ml, t = max(y[0], 0.0), min(y[1], ambient)
            pp, rv, rl = point(t)
            hl, hv = fluid.saturated(t, 0, 'h'), fluid.saturated(t, 1, 'h')
            up, down = min(t + eps, ambient), t - eps
            _, rv_up, rl_up = point(up)
            _, rv_down, rl_down = point(down)
            drv, drl = (rv_up - rv_down) / (up - down), (rl_up - rl_down) / (up - down)
            dh = (fluid.saturated(up, 0, 'h') - fluid.saturated(down, 0, 'h')) / (up - down)
            out_v = flow(pp) if mode == 'vapour' else 0.0
            out_l = liquid_rate(t) if mode == 'liquid' else 0.0
            # unknowns: ml', t':  mass of vapour + liquid, and enthalpy of the liquid
            #   ml' (1 - rv/rl) + t' (vv drv + ml rv/rl^2 drl) = -(out_v + out_l)
            #   ml' hl + ml dh t' = ua (ambient - t) - hv b - hl out_l,   b = -ml' - out_l
            vv = v - ml / rl
            a = np.array([
                [1 - rv / rl, vv * drv + ml * rv / rl ** 2 * drl],
                [hl - hv, ml * dh + case.get('metal', 0)],
            ])
            b = np.array([-(out_v + out_l), ua * (ambient - y[1]) + (hv - hl) * out_l])
            return np.linalg.solve(a, b)

        def gone(_, y):
            return y[0] - 1e-9 * liquid

        gone.terminal = True
        sol = solve_ivp(rhs, (0, 3e6), [liquid, ambient], method='LSODA', rtol=1e-7,
                        atol=[1e-8 * liquid, 1e-6], events=gone)
        assert sol.status == 1, sol.message
        dry = float(sol.t_events[0][0])
        coldest = float(np.min(sol.y[1]))
        p = fluid.saturated(min(float(sol.y_events[0][0][1]), ambient), 1, 'p')
    tail = 0.0
    if p > level:
        tail_sol = solve_ivp(lambda _, y: [-flow(y[0]) / (v * fluid.slope(y[0]))], (0, 3e6), [p], method='LSODA',
                             rtol=1e-9, atol=1e-4, events=level_event(level))
        tail = float(tail_sol.t_events[0][0])
    return (dry + tail) / 60, dry / 60, coldest - 273.15


def level_event(level):
    def event(_, y):
        return y[0] - level
    event.terminal = True
    return event


HOSE = ('tube', 0.0048, 1.5)
CORE = ('tube', 0.0016, 0.006)
WIDE = ('tube', 0.008, 1.5)
PORT = ('opening', 0.0047, 0.8)
M3H = 1 / 3600
VACUUM_10 = ATM - 10 * 3386.38

CASES = [
    dict(id='RC-01', refrigerant='R-410A', charge=5, volume=0.020, ambient=293.15, heat=20, level=ATM,
         displacement=3 * M3H, efficiency=0.8, ultimate=20e3, parts=[HOSE, CORE]),
    dict(id='RC-02', refrigerant='R-410A', charge=5, volume=0.020, ambient=293.15, heat=20, level=ATM,
         displacement=3 * M3H, efficiency=0.8, ultimate=20e3, parts=[WIDE]),
    dict(id='RC-03', refrigerant='R-134a', charge=8, volume=0.030, ambient=298.15, heat=40, level=VACUUM_10,
         displacement=4 * M3H, efficiency=1, ultimate=15e3, parts=[WIDE, PORT]),
    dict(id='RC-04', refrigerant='R-290', charge=1.2, volume=0.010, ambient=288.15, heat=8, level=ATM,
         displacement=2 * M3H, clearance=0.04, ultimate=0, parts=[HOSE, CORE]),
    dict(id='RC-05', refrigerant='R-32', charge=2.5, volume=0.008, ambient=303.15, heat=15, level=50e3,
         displacement=2.5 * M3H, efficiency=0.75, ultimate=25e3, parts=[HOSE, CORE]),
    dict(id='RC-06', refrigerant='R-407C', charge=10, volume=0.040, ambient=293.15, heat=60, level=ATM,
         displacement=5 * M3H, efficiency=0.8, ultimate=20e3, parts=[WIDE, CORE]),
    dict(id='RC-07', refrigerant='R-22', charge=30, volume=0.060, ambient=293.15, heat=30, level=ATM, mode='liquid',
         displacement=4 * M3H, clearance=0.03, approach=10, ultimate=20e3, parts=[WIDE, PORT]),
    dict(id='RC-08', refrigerant='R-410A', charge=40, volume=0.080, ambient=293.15, heat=30, level=ATM,
         mode='push-pull', displacement=4 * M3H, efficiency=0.8, ultimate=20e3, parts=[HOSE, CORE]),
    dict(id='RC-09', refrigerant='R-744', charge=6, volume=0.020, ambient=288.15, heat=150, level=ATM,
         displacement=1.5 * M3H, efficiency=0.8, ultimate=20e3, parts=[HOSE, CORE]),
    dict(id='RC-10', refrigerant='R-134a', charge=0.4, volume=0.030, ambient=293.15, heat=10, level=40e3,
         displacement=3 * M3H, efficiency=0.8, ultimate=20e3, parts=[HOSE, CORE]),
    dict(id='RC-11', refrigerant='R-290', charge=3, volume=0.012, ambient=293.15, heat=25, level=ATM, mode='liquid',
         liquid_rate=0.02, displacement=2 * M3H, efficiency=0.9, ultimate=20e3, parts=[HOSE]),
    dict(id='RC-12', refrigerant='R-1234yf', charge=4, volume=0.015, ambient=293.15, heat=12, metal=8000, level=ATM,
         displacement=3 * M3H, efficiency=0.8, ultimate=20e3, parts=[HOSE, CORE]),
]


def text(case):
    parts = ' + '.join(':'.join(str(x) for x in part) for part in case['parts'])
    keys = [k for k in case if k not in ('id', 'parts')]
    return '; '.join([f'{k}={case[k]:.10g}' if isinstance(case[k], (int, float)) else f'{k}={case[k]}' for k in keys]
                     + [f'parts={parts}'])


def main():
    only = sys.argv[1:]
    print('id,inputs,minutes,dry_minutes,coldest_C,tolerance,basis,source')
    for case in CASES:
        if only and case['id'] not in only:
            continue
        minutes, dry, coldest = run(case)
        source = f'tools/refrigerants/recovery_cases.py with CoolProp {CoolProp.__version__}'
        print(f'{case["id"]},{text(case)},{minutes:.4f},{dry:.4f},{coldest:.2f},rel: 0.02,computed,{source}', flush=True)


if __name__ == '__main__':
    main()
