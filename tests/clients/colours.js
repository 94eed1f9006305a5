// Colours texts by a TextMate grammar as editors do, with the engine that they do it with. Arguments: the grammar, then files. Prints a line of JSON for
// each line of each file: its tokens as [from, to, innermost scope].
const fs = require("fs");
const path = require("path");
const oniguruma = require("vscode-oniguruma");
const { Registry, parseRawGrammar, INITIAL } = require("vscode-textmate");

const [grammarFile, ...files] = process.argv.slice(2);
const engine = fs.readFileSync(path.join(path.dirname(require.resolve("vscode-oniguruma")), "onig.wasm"));

async function run() {
  await oniguruma.loadWASM(engine);
  const registry = new Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (sources) => new oniguruma.OnigScanner(sources),
      createOnigString: (text) => new oniguruma.OnigString(text),
    }),
    loadGrammar: async () => parseRawGrammar(fs.readFileSync(grammarFile, "utf8"), grammarFile),
  });
  const grammar = await registry.loadGrammar("source.machine");
  for (const file of files) {
    let state = INITIAL;
    for (const line of fs.readFileSync(file, "utf8").split("\n")) {
      const { tokens, ruleStack } = grammar.tokenizeLine(line, state);
      state = ruleStack;
      console.log(JSON.stringify(tokens.map((t) => [t.startIndex, t.endIndex, t.scopes[t.scopes.length - 1]])));
    }
  }
}

run().catch((fault) => {
  console.error(fault.message);
  process.exitCode = 1;
});
