/**
 * Children that each element of a task pane manifest may have, in the order in which they must stand: + one or more,
 * * any number, ? at most one, otherwise exactly one. Written from the platform's published reference of the manifest
 * (element pages and the page on element order) for what an Excel add-in with custom functions can use.
 */
export const CHILDREN: Readonly<Record<string, string>> = {
  OfficeApp:
    'Id AlternateId? Version ProviderName DefaultLocale DisplayName Description IconUrl HighResolutionIconUrl SupportUrl AppDomains? Hosts Requirements? DefaultSettings Permissions VersionOverrides?',
  AppDomains: 'AppDomain+',
  'OfficeApp/Hosts': 'Host+',
  Requirements: 'Sets? Methods?',
  Sets: 'Set+',
  DefaultSettings: 'SourceLocation',
  VersionOverrides: 'Description? Requirements? Hosts Resources WebApplicationInfo? EquivalentAddins?',
  'VersionOverrides/Hosts': 'Host+',
  'VersionOverrides/Hosts/Host': 'Runtimes? AllFormFactors? DesktopFormFactor',
  Runtimes: 'Runtime+',
  AllFormFactors: 'ExtensionPoint+',
  'AllFormFactors/ExtensionPoint': 'Script Page Metadata Namespace?',
  Script: 'SourceLocation',
  Page: 'SourceLocation',
  Metadata: 'SourceLocation',
  DesktopFormFactor: 'GetStarted? FunctionFile? ExtensionPoint+',
  GetStarted: 'Title Description LearnMoreUrl',
  'DesktopFormFactor/ExtensionPoint': 'OfficeTab+',
  OfficeTab: 'Group',
  Group: 'Label Icon Control+',
  Icon: 'bt:Image+',
  Control: 'Label Supertip Icon Action Enabled?',
  Supertip: 'Title Description',
  Action: 'TaskpaneId? SourceLocation Title?',
  Resources: 'bt:Images bt:Urls bt:ShortStrings bt:LongStrings',
  'bt:Images': 'bt:Image+',
  'bt:Urls': 'bt:Url+',
  'bt:ShortStrings': 'bt:String+',
  'bt:LongStrings': 'bt:String+',
};

/** The longest rule whose path ends at this element: parents tell apart elements of the same name. */
export function childRule(path: readonly string[]): string | undefined {
  for (let start = 0; start < path.length; start += 1) {
    const rule = CHILDREN[path.slice(start).join('/')];
    if (rule !== undefined) return rule;
  }
  return undefined;
}

/** What is wrong with the children of one element, in words; empty when they follow the rule. */
export function orderFaults(path: readonly string[], children: readonly string[]): readonly string[] {
  const label = path.at(-1) ?? '';
  const rule = childRule(path);
  if (rule === undefined) return children.map((child) => `${label} takes no child, but has ${child}`);
  const faults: string[] = [];
  let next = 0;
  for (const part of rule.split(' ')) {
    const name = part.replace(/[?*+]$/, '');
    let count = 0;
    while (children[next] === name) {
      count += 1;
      next += 1;
    }
    if (count === 0 && !/[?*]$/.test(part))
      faults.push(`${label} needs ${name} here, found ${children[next] ?? 'none'}`);
    if (count > 1 && !/[*+]$/.test(part)) faults.push(`${label} takes one ${name}, has ${count}`);
  }
  if (next < children.length) faults.push(`${children[next]} stands at the wrong place in ${label}`);
  return faults;
}
