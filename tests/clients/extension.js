// Starts and ends the extension in the folder that is named, as an editor would that speaks the language named, with settings given
// as JSON. The editor and the client of the protocol are stand-ins that only say what is asked of them.
const Module = require("module");
const path = require("path");

const [folder, language, settings] = process.argv.slice(2);
const chosen = JSON.parse(settings);
const main = require.resolve(path.resolve(folder));
// The client that is packed along is there, and is the one that would be taken.
const packed = Module.createRequire(main).resolve("vscode-languageclient/node");
const stands = {
  vscode: { env: { language }, workspace: { getConfiguration: (at) => ({ get: (name) => chosen[`${at}.${name}`] }) } },
  "vscode-languageclient/node": {
    LanguageClient: class {
      constructor(id, name, server, options) {
        this.said = { id, name, server, options };
      }
      async start() {
        console.log(JSON.stringify(this.said));
      }
      async stop() {
        console.log(JSON.stringify("stopped"));
      }
    },
  },
};
const load = Module._load;
Module._load = (name, ...rest) => stands[name] ?? load(name, ...rest);
const { activate, deactivate } = require(main);
Promise.resolve(activate())
  .then(deactivate)
  .then(() => console.log(JSON.stringify(path.relative(path.resolve(folder), packed))));
