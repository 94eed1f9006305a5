// Starts the language server of the command for descriptions, and ends it with the editor.
const vscode = require("vscode");
const { LanguageClient } = require("vscode-languageclient/node");

const spoken = ["en", "de"];
let client;

function activate() {
  const chosen = vscode.workspace.getConfiguration("reckoner");
  const own = vscode.env.language.split("-")[0];
  const server = { command: chosen.get("command"), args: ["language-server"] };
  client = new LanguageClient("reckoner", "Reckoner", server, {
    documentSelector: [{ language: "machine" }],
    initializationOptions: {
      width: chosen.get("width") || undefined,
      language: chosen.get("language") || (spoken.includes(own) ? own : undefined),
    },
  });
  return client.start();
}

const deactivate = () => client?.stop();

module.exports = { activate, deactivate };
