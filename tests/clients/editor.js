// A client of the language server out of npm's protocol library. Starts the program named by its arguments, asks what the lines of
// its input say, and prints each answer as a line of JSON; what the library's own types do not know as what it should be ends it.
//
// An input line is {"open": uri, "text", "version"}, {"notes": uri, "version"}, {"ask": method, "params", "is": type} or {"memory": true}.
const { spawn } = require("child_process");
const fs = require("fs");
const lsp = require("vscode-languageserver-protocol/node");

const [program, ...words] = process.argv.slice(2);
const server = spawn(program, words, { stdio: ["pipe", "pipe", "inherit"] });
const client = lsp.createProtocolConnection(
  new lsp.StreamMessageReader(server.stdout),
  new lsp.StreamMessageWriter(server.stdin),
);
const told = new Map();
let waits = () => {};
client.onNotification(lsp.PublishDiagnosticsNotification.type, (about) => {
  if (!about.diagnostics.every(lsp.Diagnostic.is)) throw new Error(`no diagnostics: ${JSON.stringify(about)}`);
  told.set(`${about.uri} ${about.version}`, about.diagnostics);
  waits();
});
client.listen();

const print = (value) => console.log(JSON.stringify(value));

function checked(answer, type) {
  if (type && !lsp[type].is) throw new Error(`the library does not judge a ${type}`);
  const all = Array.isArray(answer) ? answer : [answer];
  const wrong = type ? all.find((one) => one !== null && !lsp[type].is(one)) : undefined;
  if (wrong) throw new Error(`no ${type}: ${JSON.stringify(wrong)}`);
  return answer;
}

async function notes(key) {
  while (!told.has(key)) await new Promise((go) => (waits = go));
  return told.get(key);
}

// What the server used at most, in megabytes.
const memory = () => Math.ceil(/VmHWM:\s+(\d+)/.exec(fs.readFileSync(`/proc/${server.pid}/status`, "utf8"))[1] / 1024);

async function talk(lines) {
  const workspace = { workspaceEdit: { documentChanges: true } };
  const begun = await client.sendRequest(lsp.InitializeRequest.type, {
    processId: process.pid,
    rootUri: null,
    capabilities: { workspace, textDocument: { publishDiagnostics: { versionSupport: true } } },
    initializationOptions: { width: "5" },
  });
  print(begun.serverInfo);
  await client.sendNotification(lsp.InitializedNotification.type, {});
  for (const line of lines) {
    if (line.open) {
      const textDocument = { uri: line.open, languageId: "machine", version: line.version ?? 1, text: line.text };
      await client.sendNotification(lsp.DidOpenTextDocumentNotification.type, { textDocument });
    } else if (line.close) {
      await client.sendNotification(lsp.DidCloseTextDocumentNotification.type, { textDocument: { uri: line.close } });
    } else if (line.notes) {
      print(await notes(`${line.notes} ${line.version ?? 1}`));
    } else if (line.memory) {
      print(memory());
    } else {
      print(checked(await client.sendRequest(line.ask, line.params), line.is));
    }
  }
  await client.sendRequest(lsp.ShutdownRequest.type);
  await client.sendNotification(lsp.ExitNotification.type);
}

server.on("exit", (status) => {
  print({ status });
  process.exit();
});
talk(fs.readFileSync(0, "utf8").split("\n").filter(Boolean).map((line) => JSON.parse(line))).catch((fault) => {
  console.error(fault.message);
  server.kill();
  process.exitCode = 1;
});
