"""
Makes the refrigerant tables of src/engine/refrigerant/data and the check tables of tests/engine/refrigerant.

    python -m venv venv && venv/bin/pip install CoolProp==8.0.0 numpy
    venv/bin/python tools/refrigerants/make_tables.py     (from the root of the repository; some minutes)
    npx biome format --write src/engine/refrigerant/data

Saturation properties are Chebyshev series fitted at the nodes of the first kind: ln p over 1/T, everything else over
s = (1 - T/Tc)^(1/3), in which densities and enthalpies run smooth towards the critical point. The vapour below the dew
line is Z = 1 + d (Zdew - 1)(1 + (1 - d) r), d = rho/rhodew, with r a series in T and d: it meets the saturated vapour
and the ideal gas exactly, and stays smooth near the critical point, where rho(p) does not. Above the last temperature
of saturation (if that is below 100 C) it is Z = 1 + d c, d the share of the last dew density, c a series in T and d. Degrees are raised until the series meets the tolerance between its nodes. The check tables
are worked out point by point from the equations of state, at other temperatures and pressures than the nodes.
"""

import functools
import json
import math
import os
import sys

import CoolProp
import CoolProp.CoolProp as CP
import numpy as np

R = 8.314462618  # J/(mol K), CODATA 2018
ZERO = 273.15  # K: liquid at the bubble line has 200 kJ/kg here
ENTHALPY_AT_ZERO = 200e3
COLDEST = 173.15  # K: no table begins lower
PSEUDO_COLDEST = 200.15  # K: the pseudo-pure equations begin at 200 K
WARM_VAPOUR = 373.15  # K: dilute-gas properties and vapour densities go at least this far
SHORT = 5.0  # K below the critical temperature at which saturation ends

# by mass, ANSI/ASHRAE Standard 34; keys are CoolProp's names
BLENDS = {
    'R-404A': {'R125': 44, 'R143a': 52, 'R134a': 4},
    'R-407C': {'R32': 23, 'R125': 25, 'R134a': 52},
    'R-410A': {'R32': 50, 'R125': 50},
    'R-448A': {'R32': 26, 'R125': 26, 'R1234yf': 20, 'R134a': 21, 'R1234ze(E)': 7},
    'R-449A': {'R32': 24.3, 'R125': 24.7, 'R1234yf': 25.3, 'R134a': 25.7},
    'R-452A': {'R32': 11, 'R125': 59, 'R1234yf': 30},
    'R-454B': {'R32': 68.9, 'R1234yf': 31.1},
    'R-454C': {'R32': 21.5, 'R1234yf': 78.5},
    'R-507A': {'R125': 50, 'R143a': 50},
    'R-513A': {'R1234yf': 56, 'R134a': 44},
}
PURE = {
    'R-22': 'R22',
    'R-32': 'R32',
    'R-134a': 'R134a',
    'R-290': 'n-Propane',
    'R-600a': 'IsoButane',
    'R-717': 'Ammonia',
    'R-744': 'CarbonDioxide',
    'R-1234yf': 'R1234yf',
    'R-1234ze(E)': 'R1234ze(E)',
}
PSEUDO = {'R-404A': 'R404A', 'R-407C': 'R407C', 'R-410A': 'R410A', 'R-507A': 'R507A'}
SAFETY = {
    'R-32': 'A2L',
    'R-290': 'A3',
    'R-454B': 'A2L',
    'R-454C': 'A2L',
    'R-600a': 'A3',
    'R-717': 'B2L',
    'R-1234yf': 'A2L',
    'R-1234ze(E)': 'A2L',
}  # all others A1
ORDER = [
    *['R-22', 'R-32', 'R-134a', 'R-290', 'R-404A', 'R-407C', 'R-410A', 'R-448A', 'R-449A', 'R-452A', 'R-454B'],
    *['R-454C', 'R-507A', 'R-513A', 'R-600a', 'R-717', 'R-744', 'R-1234yf', 'R-1234ze(E)'],
]


def mole_fractions(blend):
    moles = {name: share / CP.PropsSI('M', name) for name, share in blend.items()}
    total = sum(moles.values())
    return {name: n / total for name, n in moles.items()}


def pair_source(one, other):
    for a, b in ((one, other), (other, one)):
        try:
            return CP.get_mixture_binary_pair_data(CP.get_fluid_param_string(a, 'CAS'), CP.get_fluid_param_string(b, 'CAS'), 'BibTeX')
        except ValueError:
            continue
    raise ValueError(f'no mixing parameters for {one} with {other}')


class Fluid:
    """One refrigerant as the equations of state give it, point by point."""

    def __init__(self, name):
        self.name = name
        self.pseudo = name in PSEUDO
        self.mixture = name in BLENDS and not self.pseudo
        self.parts = mole_fractions(BLENDS[name]) if name in BLENDS else {PURE[name]: 1.0}
        if self.mixture:
            self.state = self.new_mixture()
            self.single = self.new_mixture()
            stable = [c for c in self.state.all_critical_points() if c.stable and c.p > 0]
            self.tc, self.pc = stable[0].T, stable[0].p
        else:
            self.state = CP.AbstractState('HEOS', PSEUDO.get(name) or PURE[name])
            self.single = CP.AbstractState('HEOS', PSEUDO.get(name) or PURE[name])
            self.tc, self.pc = self.state.T_critical(), self.state.p_critical()
        self.single.specify_phase(CoolProp.iphase_gas)
        self.mass = self.state.molar_mass()
        triple = max(CP.PropsSI('Ttriple', part) for part in self.parts)
        self.lowest = max(COLDEST, PSEUDO_COLDEST if self.pseudo else triple + 0.5)
        self.lowest = math.ceil(self.lowest * 100 - 1e-6) / 100
        self.highest = math.floor((self.tc - SHORT) * 100) / 100
        self.kept = {}
        self.shift = ENTHALPY_AT_ZERO - self.enthalpy(ZERO, 0)

    def new_mixture(self):
        state = CP.AbstractState('HEOS', '&'.join(self.parts))
        state.set_mole_fractions(list(self.parts.values()))
        return state

    def walk(self, quality):
        """Saturation of a mixture by small steps from 0 C, each the guess of the next; a grid of pressure guesses."""
        if quality in self.kept:
            return self.kept[quality]
        grid = []
        for end in (self.lowest, self.highest):
            self.state.update(CoolProp.QT_INPUTS, quality, ZERO)
            temperature, step = ZERO, math.copysign(0.5, end - ZERO)
            while True:
                grid.append((temperature, self.guess(temperature)))
                if temperature == end:
                    break
                temperature += step
                if (temperature - end) * step > 0:
                    temperature = end
                self.state.update_with_guesses(CoolProp.QT_INPUTS, quality, temperature, grid[-1][1])
        self.kept[quality] = sorted(grid, key=lambda one: one[0])
        return self.kept[quality]

    def guess(self, temperature):
        guess = CP.PyGuessesStructure()
        guess.T, guess.p = temperature, self.state.p()
        guess.rhomolar_liq = self.state.saturated_liquid_keyed_output(CoolProp.iDmolar)
        guess.rhomolar_vap = self.state.saturated_vapor_keyed_output(CoolProp.iDmolar)
        guess.x, guess.y = self.state.mole_fractions_liquid(), self.state.mole_fractions_vapor()
        return guess

    def saturation(self, temperature, quality):
        """(p, molar density) at the bubble (0) or dew (1) line"""
        if self.mixture:
            near = min(self.walk(quality), key=lambda one: abs(one[0] - temperature))
            self.state.update_with_guesses(CoolProp.QT_INPUTS, quality, temperature, near[1])
        else:
            self.state.update(CoolProp.QT_INPUTS, quality, temperature)
        pressure, density = self.state.p(), self.state.rhomolar()
        if self.pseudo and quality == 1:
            # the density of the equation of state itself at the dew pressure, which the vapour below it then joins
            density = self.vapour(temperature, pressure, density * 1.2)
        return pressure, density

    def at(self, temperature, density):
        self.single.update(CoolProp.DmolarT_INPUTS, density, temperature)
        return self.single

    def vapour(self, temperature, pressure, most):
        """molar density of the vapour at p: the root of p(rho) at or below `most`, by bisection after regula falsi"""
        low, high = 0.0, most
        rho = pressure / (R * temperature)
        for _ in range(200):
            rho = rho if low < rho < high else 0.5 * (low + high)
            state = self.at(temperature, rho)
            error, slope = state.p() - pressure, state.first_partial_deriv(CoolProp.iP, CoolProp.iDmolar, CoolProp.iT)
            if abs(error) < 1e-12 * pressure:
                break
            low, high = (rho, high) if error < 0 else (low, rho)
            rho -= error / slope
        return rho

    def enthalpy(self, temperature, quality):
        pressure, density = self.saturation(temperature, quality)
        return self.at(temperature, density).hmass()

    def heat(self, temperature):
        return self.at(temperature, self.saturation(temperature, 0)[1]).cpmass()

    def ratio(self, temperature):
        cp = sum(x * CP.PropsSI('CP0MOLAR', 'T', temperature, 'Dmolar', 1e-6, part) for part, x in self.parts.items())
        return cp / (cp - R)

    def dilute_viscosity(self, temperature):
        if not self.mixture:
            return dilute(PSEUDO.get(self.name) or PURE[self.name], temperature)
        names, shares = list(self.parts), list(self.parts.values())
        mu = [dilute(name, temperature) for name in names]
        mass = [CP.PropsSI('M', name) for name in names]
        return wilke(shares, mu, mass)

    def liquid_viscosity(self, temperature):
        if not self.mixture:
            return self.at(temperature, self.saturation(temperature, 0)[1]).viscosity()
        return mixed_liquid(self.parts, temperature, self.tc)


STATES = {}


def part_state(name):
    if name not in STATES:
        STATES[name] = CP.AbstractState('HEOS', name)
    return STATES[name]


def models(name):
    """Viscosity models of a fluid, the one that CoolProp uses first."""
    found = json.loads(CP.get_fluid_param_string(name, 'JSON'))[0]['TRANSPORT']['viscosity']
    return found if isinstance(found, list) else [found]


def kinetic(name):
    """The model with Lennard-Jones sizes, where CoolProp's first choice is an estimate from the residual entropy: that
    one is made for dense fluid and is 6 to 10 % high in dilute vapour."""
    first, *others = models(name)
    return next((m for m in others if 'sigma_eta' in m), None) if first.get('type') == 'rhosr-CS' else None


def dilute(name, temperature):
    """Viscosity of the dilute vapour, Pa s"""
    sizes = kinetic(name)
    if sizes:
        # Chapman and Enskog with the collision integral of Neufeld, Janzen, Aziz, J. Chem. Phys. 57 (1972) 1100
        x = temperature / sizes['epsilon_over_k']
        omega = 1.16145 * x**-0.14874 + 0.52487 * math.exp(-0.7732 * x) + 2.16178 * math.exp(-2.43787 * x)
        gram, angstrom = 1000 * CP.PropsSI('M', name), 1e10 * sizes['sigma_eta']
        return 2.6692e-6 * math.sqrt(gram * temperature) / (angstrom**2 * omega)
    state = part_state(name)
    state.specify_phase(CoolProp.iphase_gas)
    state.update(CoolProp.DmolarT_INPUTS, 1e-6, temperature)
    state.unspecify_phase()
    return state.viscosity()


def wilke(shares, mu, mass):
    """C. R. Wilke, J. Chem. Phys. 18 (1950) 517"""
    total = 0.0
    for i, x in enumerate(shares):
        phi = sum(
            shares[j]
            * (1 + math.sqrt(mu[i] / mu[j]) * (mass[j] / mass[i]) ** 0.25) ** 2
            / math.sqrt(8 * (1 + mass[i] / mass[j]))
            for j in range(len(shares))
        )
        total += x * mu[i] / phi
    return total


def mixed_liquid(parts, temperature, tc):
    """ln mu = sum x ln mu_i, each part as saturated liquid at the same reduced temperature as the blend"""
    log = 0.0
    for name, x in parts.items():
        state = part_state(name)

        def log_viscosity(t):
            state.update(CoolProp.QT_INPUTS, 0, t)
            return math.log(state.viscosity())

        reduced, coldest = temperature / tc * state.T_critical(), state.Ttriple() + 2
        if reduced >= coldest:
            log += x * log_viscosity(reduced)
        else:
            # ln mu over 1/T goes on straight below the triple point of a part
            near, next_ = log_viscosity(coldest), log_viscosity(coldest + 2)
            log += x * (near + (next_ - near) * (1 / reduced - 1 / coldest) / (1 / (coldest + 2) - 1 / coldest))
    return math.exp(log)


def nodes(count):
    return np.cos(np.pi * (np.arange(count) + 0.5) / count)


def fit(values):
    """Chebyshev coefficients of the values at `nodes`"""
    count = len(values)
    k = np.arange(count)
    basis = np.cos(np.outer(k, np.pi * (np.arange(count) + 0.5) / count))
    c = 2 / count * basis @ np.asarray(values)
    c[0] /= 2
    return c


def rounded(coefficients, resolution):
    """to whole multiples of a power of ten at most `resolution`, without the tail that rounds to nothing"""
    digits = max(0, math.ceil(-math.log10(resolution)))
    out = [round(float(c), digits) + 0.0 for c in coefficients]
    while len(out) > 1 and out[-1] == 0:
        out.pop()
    return out


def series(function, variable, low, high, tolerance, most=24):
    """Series of function(T) over variable(T) between two temperatures, absolute error below `tolerance`."""
    a, b = variable(low), variable(high)
    checks = np.linspace(low, high, 33)[1:-1]
    wanted = [function(t) for t in checks]
    inverse = lambda x: bisect(lambda t: variable(t) - x, low, high)
    for count in range(4, most + 1):
        xs = nodes(count)
        c = rounded(fit([function(inverse(0.5 * (a + b) + 0.5 * (b - a) * x)) for x in xs]), tolerance / 20)
        got = [np.polynomial.chebyshev.chebval((2 * variable(t) - a - b) / (b - a), c) for t in checks]
        if max(abs(g - w) for g, w in zip(got, wanted)) < tolerance:
            return c
    raise ValueError('no series is good enough')


def bisect(f, low, high):
    rising = f(high) > f(low)
    for _ in range(200):
        middle = 0.5 * (low + high)
        if (f(middle) < 0) == rising:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


def surface(r, variable, low, high, tolerance, zfactor):
    """Series in variable(T) and d; `zfactor(T, d, r)` says how r enters Z, on which the tolerance acts."""
    a, b = variable(low), variable(high)
    checks = [(t, q) for t in np.linspace(low, high, 12) for q in (0.03, 0.2, 0.4, 0.6, 0.75, 0.9, 0.97)]
    wanted = [zfactor(t, q, r(t, q)) for t, q in checks]
    inverse = lambda x: bisect(lambda t: variable(t) - x, low, high)
    for m, n in ((3, 2), (4, 3), (5, 3), (6, 3), (6, 4), (8, 4), (10, 4), (8, 5), (10, 5), (12, 6)):
        values = [[r(inverse(0.5 * (a + b) + 0.5 * (b - a) * x), 0.5 + 0.5 * y) for y in nodes(n)] for x in nodes(m)]
        by_d = np.array([fit(row) for row in values])
        c = np.array([fit(by_d[:, j]) for j in range(n)]).T
        c = np.round(c, 5)
        got = []
        for t, q in checks:
            x, y = (2 * variable(t) - a - b) / (b - a), 2 * q - 1
            got.append(zfactor(t, q, np.polynomial.chebyshev.chebval2d(x, y, c)))
        worst = max(abs(g / w - 1) for g, w in zip(got, wanted))
        if worst < tolerance:
            return [rounded(row, 1e-5) for row in c]
    raise ValueError('no surface is good enough')


def table(fluid):
    s = lambda t: (1 - t / fluid.tc) ** (1 / 3)
    inverse = lambda t: 1 / t
    same = lambda t: t
    low, high = fluid.lowest, fluid.highest
    top = max(high, WARM_VAPOUR)
    p = lambda t, q: fluid.saturation(t, q)[0]
    rho = lambda t, q: fluid.saturation(t, q)[1] * fluid.mass
    dew = functools.cache(lambda t: fluid.saturation(t, 1))
    last = dew(high)[1]

    def zcap(t):
        pressure, density = dew(t)
        return pressure / (density * R * t)

    def shape(t, d):
        density = d * dew(t)[1]
        z = fluid.at(t, density).p() / (density * R * t)
        return ((z - 1) / (d * (zcap(t) - 1)) - 1) / (1 - d)

    def warm(t, d):
        density = d * last
        return (fluid.at(t, density).p() / (density * R * t) - 1) / d

    cold_z = lambda t, d, r: 1 + d * (zcap(t) - 1) * (1 + (1 - d) * r)
    warm_z = lambda t, d, c: 1 + d * c
    out = {
        'bubblePressure': series(lambda t: math.log(p(t, 0)), inverse, low, high, 2e-5),
        'dewPressure': series(lambda t: math.log(p(t, 1)), inverse, low, high, 2e-5),
        'liquidDensity': series(lambda t: rho(t, 0), s, low, high, 0.01),
        'vapourDensity': series(lambda t: math.log(rho(t, 1)), s, low, high, 2e-5),
        'liquidEnthalpy': series(lambda t: fluid.enthalpy(t, 0) + fluid.shift, s, low, high, 20),
        'vapourEnthalpy': series(lambda t: fluid.enthalpy(t, 1) + fluid.shift, s, low, high, 20),
        'liquidHeat': series(lambda t: math.log(fluid.heat(t)), s, low, high, 2e-4),
        'liquidViscosity': series(lambda t: math.log(fluid.liquid_viscosity(t)), s, low, high, 1e-3),
        'vapourViscosity': series(lambda t: 1e6 * fluid.dilute_viscosity(t), same, low, top, 2e-3),
        'heatCapacityRatio': series(fluid.ratio, same, low, top, 2e-5),
        'vapourShape': surface(shape, s, low, high, 3e-4, cold_z),
    }
    if top > high:
        out['warmShape'] = surface(warm, same, high, top, 3e-4, warm_z)
    return out


def source(fluid):
    if fluid.mixture:
        parts = list(fluid.parts)
        pairs = sorted({pair_source(a, b) for i, a in enumerate(parts) for b in parts[:i]})
        states = sorted({CP.get_BibTeXKey(part, 'EOS') for part in parts})
        return {
            'equation': f"mixture of {', '.join(states)}; mixing parameters {', '.join(pairs)}",
            'viscosity': 'estimated from the components: vapour by Wilke 1950; liquid by ln mu = sum x ln mu at one reduced temperature',
        }
    key = PSEUDO.get(fluid.name) or PURE[fluid.name]
    kind = ' (pseudo-pure)' if fluid.pseudo else ''
    liquid = models(key)[0]['BibTeX']
    sizes = kinetic(key)
    viscosity = f"vapour: kinetic theory, sizes of {sizes['BibTeX']}; liquid {liquid}" if sizes else liquid
    return {'equation': CP.get_BibTeXKey(key, 'EOS') + kind, 'viscosity': viscosity}


def number(x):
    text = repr(float(x))
    return text[:-2] if text.endswith('.0') else text


def literal(value, indent=2):
    pad = ' ' * indent
    if isinstance(value, str):
        return "'" + value.replace("'", "\\'") + "'"
    if isinstance(value, bool):
        return 'true' if value else 'false'
    if isinstance(value, list):
        return '[' + ', '.join(literal(v, indent + 2) for v in value) + ']'
    if isinstance(value, dict):
        return '{\n' + ''.join(f'{pad}{k}: {literal(v, indent + 2)},\n' for k, v in value.items()) + pad[:-2] + '}'
    return number(value)


def file_name(name):
    return name.lower().replace('(', '').replace(')', '')


def identifier(name):
    return file_name(name).replace('-', '')


def write_table(fluid, folder):
    blend = BLENDS.get(fluid.name)
    glide = max(
        fluid.saturation(t, 0)[0] / fluid.saturation(t, 1)[0] - 1 for t in (253.15, 273.15, 293.15) if t < fluid.highest
    )
    record = {
        'name': fluid.name,
        'safetyClass': SAFETY.get(fluid.name, 'A1'),
        'molarMass': round(fluid.mass, 8),
        'criticalTemperature': round(fluid.tc, 4),
        'criticalPressure': round(fluid.pc, 0),
        'lowest': fluid.lowest,
        'highest': fluid.highest,
        # bubble and dew pressure more than 3 % apart: about 1 K of glide
        'zeotropic': glide > 0.03,
        'composition': ', '.join(f'{k} {number(v)} %' for k, v in blend.items()) if blend else '',
        'source': source(fluid),
        **table(fluid),
    }
    with open(os.path.join(folder, f'{file_name(fluid.name)}.ts'), 'w') as out:
        out.write(f'// Made by tools/refrigerants/make_tables.py with CoolProp {CoolProp.__version__}: change it there.\n')
        out.write("import type { RefrigerantTable } from '../table.ts';\n\n")
        out.write(f'export const {identifier(fluid.name)}: RefrigerantTable = {literal(record)};\n')


def write_index(folder):
    with open(os.path.join(folder, 'index.ts'), 'w') as out:
        out.write(f'// Made by tools/refrigerants/make_tables.py with CoolProp {CoolProp.__version__}: change it there.\n')
        out.write("import type { RefrigerantTable } from '../table.ts';\n")
        for name in ORDER:
            out.write(f"import {{ {identifier(name)} }} from './{file_name(name)}.ts';\n")
        out.write(f"\n/** The library that the tables were made with. */\nexport const MADE_WITH = 'CoolProp {CoolProp.__version__}';\n")
        out.write(f"\nexport const TABLES: readonly RefrigerantTable[] = [{', '.join(identifier(n) for n in ORDER)}];\n")


def write_checks(fluids, folder):
    version = f'CoolProp {CoolProp.__version__}'
    with open(os.path.join(folder, 'saturation-checks.csv'), 'w') as out:
        out.write(
            'refrigerant,t_K,p_bubble_Pa,p_dew_Pa,rho_liquid,rho_vapour,h_liquid,h_vapour,cp_liquid,'
            'mu_vapour_uPas,mu_liquid_uPas,gamma,source\n'
        )
        for f in fluids:
            # golden steps: never the nodes, close together nowhere
            for i in range(40):
                t = f.lowest + (f.highest - f.lowest) * ((0.5 + i * 0.6180339887498949) % 1.0 if i > 1 else float(i))
                (pb, dl), (pd, dv) = f.saturation(t, 0), f.saturation(t, 1)
                row = [pb, pd, dl * f.mass, dv * f.mass, f.enthalpy(t, 0) + f.shift, f.enthalpy(t, 1) + f.shift]
                row += [f.heat(t), f.dilute_viscosity(t) * 1e6, f.liquid_viscosity(t) * 1e6, f.ratio(t)]
                out.write(f'{f.name},{t:.5f},' + ','.join(f'{x:.7g}' for x in row) + f',{version}\n')
    with open(os.path.join(folder, 'vapour-checks.csv'), 'w') as out:
        out.write('refrigerant,t_K,p_Pa,rho,source\n')
        for f in fluids:
            last = f.saturation(f.highest, 1)
            for i in range(60):
                t = 223.15 + 110 * ((0.3 + i * 0.6180339887498949) % 1.0)
                share = 0.001 + 0.998 * ((0.7 + i * 0.7548776662466927) % 1.0)
                top = f.saturation(t, 1) if t <= f.highest else last
                rho = f.vapour(t, share * top[0], top[1] * 1.0001) * f.mass
                out.write(f'{f.name},{t:.5f},{share * top[0]:.8g},{rho:.7g},{version}\n')


def compare_viscosities():
    """How the estimates for blends do where a blend has a correlation of its own."""
    for name in PSEUDO:
        f = Fluid(name)
        for t in (233.15, 273.15, 313.15):
            names, x = list(f.parts), list(f.parts.values())
            vapour = wilke(x, [dilute(n, t) for n in names], [CP.PropsSI('M', n) for n in names])
            print(name, t, 'vapour', vapour / f.dilute_viscosity(t), 'liquid', mixed_liquid(f.parts, t, f.tc) / f.liquid_viscosity(t))


if __name__ == '__main__':
    root = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
    data, checks = os.path.join(root, 'src/engine/refrigerant/data'), os.path.join(root, 'tests/engine/refrigerant')
    if 'viscosities' in sys.argv:
        compare_viscosities()
        sys.exit()
    os.makedirs(data, exist_ok=True)
    os.makedirs(checks, exist_ok=True)
    fluids = []
    for name in ORDER:
        fluids.append(Fluid(name))
        write_table(fluids[-1], data)
        print(name, 'done', flush=True)
    write_index(data)
    write_checks(fluids, checks)
