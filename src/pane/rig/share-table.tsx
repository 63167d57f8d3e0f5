import type { ReportUnits } from '../../tables/spill.ts';
import type { DrawnRig } from './drawn-rig.ts';
import { boreText, lengthText, shareText } from './figures.ts';

/** What the drawing shows, as a table to read or to have read out. */
export function ShareTable({ rig, units }: { readonly rig: DrawnRig; readonly units: ReportUnits }) {
  const equivalent = rig.parts.some((part) => part.equivalent);
  return (
    <>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be within reach of the keyboard */}
      <section className="nw-shares-frame" aria-label="The drawing as a table" tabIndex={0}>
        <table className="nw-shares">
          <caption>Parts from the pump to the system</caption>
          <thead>
            <tr>
              <th scope="col">Part</th>
              <th scope="col">Bore</th>
              <th scope="col">Length</th>
              <th scope="col">Share of loss</th>
            </tr>
          </thead>
          <tbody>
            {rig.parts.map((part) => (
              <tr key={part.number}>
                <th scope="row">
                  {part.number}. {part.name} <span className="nw-quiet">{part.kind}</span>
                </th>
                <td>{boreText(part, units)}</td>
                <td>{lengthText(part, units) || '–'}</td>
                <td>{shareText(part.share)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {equivalent && (
        <p className="nw-quiet">≈ a flow coefficient is given, no bore: that of an opening of its flow.</p>
      )}
    </>
  );
}
