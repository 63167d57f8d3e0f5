/** Gas constant of water vapour, J/(kg K): 8.314462618 J/(mol K) over 18.01527 g/mol (IAPWS-95). */
export const RV = 8.314462618 / 0.01801527;
/** Triple point of water, K and Pa. Source: IAPWS R14-08(2011). */
export const TRIPLE = 273.16;
export const TRIPLE_PA = 611.657;
/** Latent heat at the triple point, J/kg. Source: IAPWS-95 (evaporation), IAPWS R10-06(2009) (melting). */
export const EVAPORATION = 2500.9e3;
export const MELTING = 333.4e3;
