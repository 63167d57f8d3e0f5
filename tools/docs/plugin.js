import { tsImport } from 'tsx/esm/api';
import webpack from 'webpack';

/** Emits the docs as plain pages under `docs/` of a bundle. */
export class DocPages {
  apply(compiler) {
    compiler.hooks.thisCompilation.tap('DocPages', (compilation) => {
      const stage = webpack.Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL;
      compilation.hooks.processAssets.tapPromise({ name: 'DocPages', stage }, async () => {
        const { docPages } = await tsImport('./pages.ts', import.meta.url);
        for (const [name, content] of docPages()) {
          compilation.emitAsset(`docs/${name}`, new webpack.sources.RawSource(content));
        }
      });
    });
  }
}
