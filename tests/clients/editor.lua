-- Neovim as a client of the language server, without a window. RECKONER_SERVER is the command as a list in JSON, RECKONER_FILE a description
-- in which something is wrong. Prints a line of JSON for each thing that is looked at.
local patience = 120000
local file = vim.env.RECKONER_FILE
local server = vim.lsp.start_client({
  name = "reckoner",
  cmd = vim.fn.json_decode(vim.env.RECKONER_SERVER),
  root_dir = vim.fn.fnamemodify(file, ":h"),
  init_options = { width = "5" },
})

local function say(name, value)
  io.stdout:write(vim.fn.json_encode({ name, value }) .. "\n")
end

local function wait(name, is_so)
  if not vim.wait(patience, is_so, 20) then
    say("waited in vain", name)
    vim.cmd("cquit")
  end
end

local function ask(method, more)
  local params = vim.lsp.util.make_position_params(0, "utf-16")
  for key, value in pairs(more or {}) do
    params[key] = value
  end
  local answers, fault = vim.lsp.buf_request_sync(0, "textDocument/" .. method, params, patience)
  local answer = answers and answers[server]
  if not answer or answer.err then
    say(method, fault or (answer and answer.err.message) or "no answer")
    vim.cmd("cquit")
  end
  return answer.result
end

local function go(pattern, columns)
  vim.fn.cursor(1, 1)
  vim.fn.search(pattern, "c")
  vim.fn.cursor(vim.fn.line("."), vim.fn.col(".") + (columns or 0))
end

local function text()
  return table.concat(vim.api.nvim_buf_get_lines(0, 0, -1, true), "\n") .. "\n"
end

vim.cmd("edit " .. vim.fn.fnameescape(file))
vim.lsp.buf_attach_client(0, server)
wait("notes", function() return #vim.diagnostic.get(0) > 0 end)
local note = vim.diagnostic.get(0)[1]
say("note", { note.code, note.lnum })

local place = { line = note.lnum, character = note.col }
local cures = ask("codeAction", { range = { start = place, ["end"] = place }, context = { diagnostics = {} } })
say("cure", cures[1].title)
vim.lsp.util.apply_workspace_edit(cures[1].edit, "utf-16")
wait("no notes", function() return #vim.diagnostic.get(0) == 0 end)
say("cured", text())

go("register A", 9)
say("hover", ask("hover").contents.value)
go("A <- less", 5)
say("definition", ask("definition").range.start.line)
say("outline", ask("documentSymbol")[1].name)
vim.lsp.util.apply_workspace_edit(ask("rename", { newName = "fewer" }), "utf-16")
say("renamed", text())
vim.api.nvim_buf_set_lines(0, -1, -1, true, { "law   half>=0" })
vim.lsp.util.apply_text_edits(ask("formatting", { options = { tabSize = 2, insertSpaces = true } }), 0, "utf-16")
say("formatted", text())
vim.lsp.stop_client(server)
wait("the end", function() return vim.lsp.client_is_stopped(server) end)
