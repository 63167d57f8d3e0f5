"""Times of charging by brute force, as expected values for the tests of the charging engine.

A second implementation that shares with the engine only the physical choices that its documentation states: equations of
state straight from CoolProp at every step (equilibrium from density and internal energy), scipy's stiff solver, its own
flow formulas.

    liquid    sum of (f L/D + K) G^2/(2 rho) over the parts = min(p1 - p2, p1 - F_F pv), f laminar or by Colebrook
    vapour    tube: G^2 (f L/D + 2 ln(rho1/rho2)) = 2 Int rho dp, isothermal at the cylinder's temperature, real
              density, K in front of the tube; choked where no outlet pressure passes more; viscosity of the dilute vapour
    cylinder  mass, energy and volume: dU/dt = -mdot h + UA (bath - T)
    system    the same with +mdot h; charged as vapour it is at Ambient until the vapour is saturated

Run: python charging_cases.py > charging.csv            (needs CoolProp, numpy and scipy)
     python charging_cases.py compare                   choked liquid flow: this model against homogeneous equilibrium
"""

import math
import sys

import CoolProp
import CoolProp.CoolProp as CP
import numpy as np
import scipy
from CoolProp import AbstractState
from scipy.integrate import solve_ivp
from scipy.interpolate import CubicSpline, RectBivariateSpline
from scipy.optimize import brentq

R = 8.314462618
ROUGHNESS = 1.5e-6
LIQUID_PART = 0.8
FLUIDS = {'R-410A': 'R410A', 'R-134a': 'R134a', 'R-290': 'R290', 'R-32': 'R32', 'R-744': 'CarbonDioxide',
          'R-717': 'Ammonia', 'R-1234yf': 'R1234yf'}

# bore m, length m, loss K: from the cylinder to the system
RIGS = {
    'core in': [(4.8e-3, 1.5, 1.5), (1.6e-3, 6e-3, 1.5)],
    'core out': [(4.8e-3, 1.5, 1.5), (4.7e-3, 6e-3, 1.5)],
    'wide': [(9.5e-3, 1.5, 1.5), (4.7e-3, 6e-3, 1.5)],
    'long': [(6.4e-3, 3.0, 2.0), (4.8e-3, 0.9, 1.5), (2.2e-3, 8e-3, 1.5)],
}

# refrigerant, as, rig, mass kg, volume L, cylinder kg, ambient C, cylinder C, UA cylinder, bath C, UA system
CASES = [
    ('R-134a', 'liquid', 'core in', 3.0, 8.0, 10.0, 20, 20, 0, 20, 0),
    ('R-134a', 'liquid', 'core out', 3.0, 8.0, 10.0, 20, 20, 0, 20, 0),
    ('R-32', 'liquid', 'long', 1.2, 4.0, 9.0, 30, 30, 4, 30, 0),
    ('R-410A', 'liquid', 'core in', 4.0, 10.0, 10.0, 25, 25, 0, 25, 0),
    ('R-290', 'liquid', 'wide', 0.5, 3.0, 5.0, 10, 15, 0, 10, 5),
    ('R-744', 'liquid', 'core in', 6.0, 12.0, 20.0, 5, 10, 0, 5, 0),
    ('R-717', 'liquid', 'long', 2.0, 10.0, 20.0, 15, 15, 0, 15, 0),
    ('R-134a', 'liquid', 'core in', 4.0, 8.0, 10.0, 20, 20, 60, 40, 30),
    ('R-1234yf', 'liquid', 'core out', 2.5, 6.0, 6.0, 35, 25, 10, 35, 0),
    ('R-134a', 'vapour', 'core in', 0.18, 8.0, 10.0, 20, 20, 0, 20, 0),
    ('R-134a', 'vapour', 'wide', 0.15, 8.0, 1.0, 20, 20, 3, 20, 0),
    ('R-290', 'vapour', 'core in', 0.4, 3.0, 5.0, 5, 20, 25, 35, 40),
    ('R-32', 'vapour', 'core out', 0.9, 4.0, 9.0, 15, 15, 60, 40, 60),
]


class Fluid:
    def __init__(self, name):
        self.key = FLUIDS[name]
        self.eos = AbstractState('HEOS', self.key)
        self.pseudo = name == 'R-410A'
        self.pc = self.eos.p_critical()
        self.kept = {}

    def sat(self, t):
        """p bubble, p dew, rho l, rho v, h l, h v"""
        t = round(t, 9)
        if t not in self.kept:
            if len(self.kept) > 20000:
                self.kept.clear()
            e = self.eos
            e.update(CoolProp.QT_INPUTS, 0, t)
            pb, rl, hl = e.p(), e.rhomass(), e.hmass()
            e.update(CoolProp.QT_INPUTS, 1, t)
            self.kept[t] = pb, e.p(), rl, e.rhomass(), hl, e.hmass()
        return self.kept[t]

    def liquid_viscosity(self, t):
        if self.pseudo:
            return CP.PropsSI('V', 'T', t, 'P', self.sat(t)[0] * 1.001, self.key)
        self.eos.update(CoolProp.QT_INPUTS, 0, t)
        return self.eos.viscosity()

    def vapour_viscosity(self, t, p):
        self.eos.specify_phase(CoolProp.iphase_gas)
        self.eos.update(CoolProp.PT_INPUTS, p, t)
        found = self.eos.viscosity()
        self.eos.unspecify_phase()
        return found

    def density(self, t, p):
        """of vapour"""
        self.eos.specify_phase(CoolProp.iphase_gas)
        self.eos.update(CoolProp.PT_INPUTS, p, t)
        found = self.eos.rhomass()
        self.eos.unspecify_phase()
        return found

    def gas_pressure(self, t, rho):
        self.eos.specify_phase(CoolProp.iphase_gas)
        self.eos.update(CoolProp.DmassT_INPUTS, rho, t)
        found = self.eos.p()
        self.eos.unspecify_phase()
        return found

    def two_phase_energy(self, t, rho):
        pb, pd, rl, rv, hl, hv = self.sat(t)
        x = (1 / rho - 1 / rl) / (1 / rv - 1 / rl)
        return (1 - x) * (hl - pb / rl) + x * (hv - pd / rv)

    def equilibrium(self, m, u_total, volume):
        """T, p, liquid kg"""
        rho, u = m / volume, u_total / m
        if self.pseudo:
            t = brentq(lambda t: self.two_phase_energy(t, rho) - u, 200, 340, xtol=1e-10)
            pb, pd, rl, rv, hl, hv = self.sat(t)
            x = (1 / rho - 1 / rl) / (1 / rv - 1 / rl)
            return t, (1 - x) * pb + x * pd, m * (1 - x)
        self.eos.update(CoolProp.DmassUmass_INPUTS, rho, u)
        q = self.eos.Q()
        return self.eos.T(), self.eos.p(), m * (1 - q) if 0 <= q <= 1 else 0.0


def friction(re, d):
    if re < 2300:
        return 64 / re
    inv = brentq(lambda y: y + 2 * math.log10(ROUGHNESS / d / 3.7 + 2.51 * y / re), 0.1, 100)
    return 1 / inv ** 2


def liquid_drop(rig, mdot, rho, mu):
    total = 0
    for bore, length, loss in rig:
        g = mdot / (math.pi / 4 * bore ** 2)
        total += (friction(g * bore / mu, bore) * length / bore + loss) * g * g / (2 * rho)
    return total


def liquid_flow(fluid, rig, t, p1, p2):
    pv, _, rho, _, _, _ = fluid.sat(t)
    floor = (0.96 - 0.28 * math.sqrt(pv / fluid.pc)) * pv
    drop = p1 - max(p2, floor)
    if drop <= 0:
        return 0.0
    mu = fluid.liquid_viscosity(t)
    return math.exp(brentq(lambda x: math.log(liquid_drop(rig, math.exp(x), rho, mu) / drop), -25, 8, xtol=1e-10))


class VapourFlow:
    """At one temperature; pressures on a fine grid once, since Int rho dp is one function of the pressure."""

    def __init__(self, fluid, rig, t):
        self.rig, self.t = rig, t
        self.top = fluid.sat(t)[1]
        p = np.linspace(0, self.top, 241)
        rho = np.array([0.0] + [fluid.density(t, x) for x in p[1:-1]] + [fluid.sat(t)[3]])
        fine = np.linspace(0, self.top, 6001)
        spline = CubicSpline(p, rho)
        self.p, self.rho, self.psi = fine, spline(fine), spline.antiderivative()(fine)
        self.mu = fluid.vapour_viscosity(t, 0.01 * self.top)

    def after(self, bore, length, loss, p1, mdot):
        """the outlet pressure that goes with a flow, or None where it is more than the choked one"""
        g = mdot / (math.pi / 4 * bore ** 2)
        n = friction(g * bore / self.mu, bore) * length / bore
        inside = np.interp(p1, self.p, self.psi) - loss * g * g / 2
        if inside <= 0:
            return None
        p1 = np.interp(inside, self.psi, self.p)
        last = int(np.searchsorted(self.p, p1))
        p, rho, psi = self.p[1:last], self.rho[1:last], self.psi[1:last]
        r1, psi1 = np.interp(p1, self.p, self.rho), np.interp(p1, self.p, self.psi)
        need = 2 * (psi1 - psi) - g * g * (n + 2 * np.log(r1 / rho))
        found = np.nonzero(need >= 0)[0]
        if len(found) == 0:
            return None
        i = found[-1]
        upper, above = (p[i + 1], need[i + 1]) if i + 1 < len(p) else (p1, -g * g * n)
        return p[i] + (upper - p[i]) * need[i] / (need[i] - above)

    def flow(self, p1, p2):
        """all parts in series: marched downstream with a trial flow"""
        def passes(mdot):
            p = p1
            for bore, length, loss in self.rig:
                p = self.after(bore, length, loss, p, mdot)
                if p is None:
                    return False
            return p > p2
        lo, hi = 1e-9, 10.0
        for _ in range(50):
            mid = math.sqrt(lo * hi)
            lo, hi = (mid, hi) if passes(mid) else (lo, mid)
        return lo


class VapourRig:
    """flow/p1 over p2/p1 and T, tabulated by VapourFlow"""

    def __init__(self, fluid, rig, low, high):
        self.t = np.linspace(low, high, 7)
        self.s = np.linspace(0, 1, 41)
        table = []
        for t in self.t:
            v = VapourFlow(fluid, rig, t)
            table.append([0.0 if s == 0 else v.flow(v.top, v.top * max(1 - s * s, 1e-6)) / v.top for s in self.s])
        self.spline = RectBivariateSpline(self.t, self.s, np.array(table), kx=3, ky=3)

    def flow(self, t, p1, p2):
        if p2 >= p1:
            return 0.0
        return p1 * float(self.spline(t, math.sqrt(1 - p2 / p1))[0][0])


def run(case):
    name, as_, rig_name, mass, litres, charge, ambient, start, ua_c, bath, ua_s = case
    fluid, rig, volume = Fluid(name), RIGS[rig_name], litres * 1e-3
    ambient, start, bath = ambient + 273.15, start + 273.15, bath + 273.15
    s = fluid.sat(max(start, ambient))
    vessel = charge / (LIQUID_PART * s[2] + (1 - LIQUID_PART) * s[3])
    u0 = charge * fluid.two_phase_energy(start, charge / vessel)
    if as_ == 'liquid':
        # choked until long after, whatever the pressure; carbon dioxide is partly solid until then
        m1 = 50 * volume if name == 'R-744' else min(4 * volume, 1e-2 * mass)
        flow = lambda t, p1, p2: liquid_flow(fluid, rig, t, p1, p2)
        h_of = lambda t: fluid.sat(t)[4]
    else:
        vr = VapourRig(fluid, rig, min(start, ambient) - 25, max(start, bath) + 1)
        flow = vr.flow
        h_of = lambda t: fluid.sat(t)[5]
        full = volume * fluid.sat(ambient)[3]

    def rhs_gas(t, y):
        tc, pc, _ = fluid.equilibrium(charge - y[0], y[1], vessel)
        ps = fluid.gas_pressure(ambient, y[0] / volume) if y[0] > 0 else 0.0
        w = flow(tc, pc, ps)
        return [w, -w * h_of(tc) + ua_c * (bath - tc)]

    def rhs(t, y):
        tc, pc, _ = fluid.equilibrium(charge - y[0], y[1], vessel)
        ts, ps, _ = fluid.equilibrium(y[0], y[2], volume)
        w = flow(tc, pc, ps)
        h = h_of(tc)
        return [w, -w * h + ua_c * (bath - tc), w * h + ua_s * (ambient - ts)]

    def arrive(target):
        def event(t, y):
            return y[0] - target
        event.terminal = True
        return event

    if as_ == 'liquid':
        w = flow(start, fluid.sat(start)[0], 0.0)
        t0, h = m1 / w, h_of(start)
        y0 = [m1, u0 - m1 * h, m1 * h]
    else:
        target = min(mass, full)
        sol = solve_ivp(rhs_gas, [0, 1e6], [0, u0], method='Radau', rtol=1e-7, atol=[1e-9, 1e-2], events=arrive(target),
                        max_step=1e6)
        t0 = sol.t[-1]
        tc = fluid.equilibrium(charge - target, sol.y[1][-1], vessel)[0]
        if mass <= full:
            return t0, tc - 273.15, ambient - 273.15
        pd, rv, hv = fluid.sat(ambient)[1], fluid.sat(ambient)[3], fluid.sat(ambient)[5]
        y0 = [target * (1 + 1e-9), sol.y[1][-1], target * (1 + 1e-9) * (hv - pd / rv) * (1 - 1e-9)]
    sol = solve_ivp(rhs, [t0, 1e6], y0, method='Radau', rtol=1e-7, atol=[1e-9, 1e-2, 1e-2], events=arrive(mass))
    if sol.status != 1:
        raise RuntimeError(f'{case} did not arrive')
    y = sol.y[:, -1]
    tc = fluid.equilibrium(charge - y[0], y[1], vessel)[0]
    ts = fluid.equilibrium(y[0], y[2], volume)[0]
    return sol.t[-1], tc - 273.15, ts - 273.15


def hem_flow(fluid, rig, t):
    """Greatest flow of saturated liquid into vacuum in homogeneous equilibrium at constant enthalpy, kg/s.

    dp = -G^2 (dv + v (f dx/D + dK)/2), the loss K at the inlet of each part; choked where G^2 dv/dp = -1.
    """
    from CoolProp.CoolProp import PropsSI
    p1, _, rho, _, h, _ = fluid.sat(t)
    grid = np.geomspace(p1, max(0.02 * p1, 1.05 * PropsSI('PTRIPLE', fluid.key)), 400)
    v = []
    for p in grid:
        rl, rv = PropsSI('D', 'P', p, 'Q', 0, fluid.key), PropsSI('D', 'P', p, 'Q', 1, fluid.key)
        hl, hv = PropsSI('H', 'P', p, 'Q', 0, fluid.key), PropsSI('H', 'P', p, 'Q', 1, fluid.key)
        x = min(max((h - hl) / (hv - hl), 0), 1)
        v.append((1 - x) / rl + x / rv)
    v = np.array(v)
    mu = fluid.liquid_viscosity(t)
    psi = np.concatenate([[0], np.cumsum(0.5 * (1 / v[1:] + 1 / v[:-1]) * -np.diff(grid))])  # Int dp/v downwards

    def passes(mdot):
        at = 0.0
        for bore, length, loss in rig:
            g = mdot / (math.pi / 4 * bore ** 2)
            n = friction(g * bore / mu, bore) * length / bore + loss
            v1 = np.interp(at, np.arange(len(v)), v)
            psi1 = np.interp(at, np.arange(len(v)), psi)
            need = lambda i: 2 * (psi[i] - psi1) - g * g * (n + 2 * math.log(v[i] / v1))
            found = next((i for i in range(int(math.ceil(at)), len(v)) if need(i) >= 0), None)
            if found is None:
                return False
            at = float(found)
        return True
    lo, hi = 1e-7, 100.0
    for _ in range(60):
        mid = math.sqrt(lo * hi)
        lo, hi = (mid, hi) if passes(mid) else (lo, mid)
    return lo


def compare():
    for name in ('R-134a', 'R-32', 'R-290', 'R-744', 'R-717', 'R-1234yf', 'R-410A'):
        fluid = Fluid(name)
        for rig_name, rig in RIGS.items():
            line = []
            for c in (0, 10, 25):
                t = c + 273.15
                mine = liquid_flow(fluid, rig, t, fluid.sat(t)[0], 0.0)
                line.append(f'{c} C {60 * mine:.3f} {hem_flow(fluid, rig, t) / mine:.2f}')
            print(name, rig_name, '| kg/min and homogeneous/this:', '; '.join(line))


if __name__ == '__main__':
    if sys.argv[1:] == ['compare']:
        compare()
    else:
        source = f'tools/refrigerants/charging_cases.py with CoolProp {CoolProp.__version__} and scipy {scipy.__version__}'
        print('id,inputs,minutes,cylinder_end_C,system_end_C,tolerance,basis,source')
        names = ('mass', 'volume', 'cylinder', 'ambient', 'cylinder_start', 'cylinder_heat', 'bath', 'heat')
        units = (1, 1e-3, 1, None, None, 1, None, 1)
        for number, case in enumerate(CASES, 1):
            seconds, tc, ts = run(case)
            name, as_, rig_name, *numbers = case
            parts = ' + '.join(f'tube:{bore:g}:{length:g}:{loss:g}' for bore, length, loss in RIGS[rig_name])
            values = '; '.join(f'{n}={x * u if u else x + 273.15:g}' for n, x, u in zip(names, numbers, units))
            print(f'CC-{number:02d},refrigerant={name}; as={as_}; {values}; parts={parts},{seconds / 60:.6g},{tc:.3f},'
                  f'{ts:.3f},rel: 0.02,computed,{source}', flush=True)
