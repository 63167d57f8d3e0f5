/** Notes that the dry-out functions share. */
export const DRY_OUT_NOTES: readonly string[] = [
  'Heat of the conditions is needed with any water: the heat conductance from the surroundings to the water in W/K. As a start: 10 W/K for each square metre of wetted pipe in still air (common practice, no source), less under insulation.',
  'It starts at Start pressure with vapour saturated at Ambient; Water is the liquid, or below freezing the ice. Gas in the system and the rig is at Ambient and well mixed; Temperature of the conditions is not used.',
  'While water is left its vapour stands at the saturation pressure of the water’s own temperature. The water pays for evaporation with its own heat and with what flows in from Ambient; at 0.01 C it freezes before it gets colder, and ice sublimes.',
  'Vapour and gas leave in proportion to their mole fractions, through the rig’s own curve for the mixture (viscosity by Wilke, molar mass by mole fraction).',
  'Metal of the conditions is the heat capacity (J/K) of the metal that is as cold as the water all along; it gives up its heat first, so that water freezes later or not at all and is dry sooner. Without it only the water is cold. One kilogram of copper has 385 J/K (handbook value, from memory). The water’s own volume is not taken off the volume.',
  'A little water can end sooner at the target than none: steam sweeps the air out and flows faster than air. More water is always later dry.',
  'Water on a gauge: with ice left the pressure can stand below the target, so a gauge at target does not yet mean dry. A hold test tells.',
];

export const DRY_OUT_SOURCES: readonly string[] = [
  'Vapour pressure over liquid: IAPWS SR1-86(1992); over ice: IAPWS R14-08(2011). Latent heats and densities: IAPWS-95, IAPWS R10-06(2009).',
  'Mixture viscosity: Wilke, J. Chem. Phys. 18 (1950) 517.',
];
