-- Opens a record as a person would, and writes down what they would see: findings, a hover, and the text after a quick fix.
-- Arguments come in the environment: GUDGEON_SERVER (a JSON list), GUDGEON_RECORD, GUDGEON_OUT.
local out = { }
local function finish(problem)
  out.problem = problem
  vim.fn.writefile({ vim.fn.json_encode(out) }, vim.env.GUDGEON_OUT)
  vim.cmd(problem and "cquit" or "quitall!")
end

local function wait(what, holds)
  if not vim.wait(20000, holds, 20) then
    finish("waited for " .. what)
  end
end

vim.cmd("edit " .. vim.fn.fnameescape(vim.env.GUDGEON_RECORD))
vim.bo.filetype = "gudgeon"
local buffer = vim.api.nvim_get_current_buf()
local client = vim.lsp.start_client({
  name = "gudgeon",
  cmd = vim.fn.json_decode(vim.env.GUDGEON_SERVER),
  root_dir = vim.fn.fnamemodify(vim.env.GUDGEON_RECORD, ":h"),
  settings = { gudgeon = { asOf = "2026-05-01" } },
  get_language_id = function() return "gudgeon" end,
})
vim.lsp.buf_attach_client(buffer, client)

local function has(code)
  for _, one in ipairs(vim.diagnostic.get(buffer)) do
    if (one.code or (one.user_data and one.user_data.lsp and one.user_data.lsp.code)) == code then return true end
  end
  return false
end

wait("findings", function() return has("syntax/comma-number") and has("limit/out-of-limit") and has("photo/changed-bytes") end)
out.findings = { }
for _, one in ipairs(vim.diagnostic.get(buffer)) do
  local code = one.code or (one.user_data and one.user_data.lsp and one.user_data.lsp.code)
  table.insert(out.findings, (one.lnum + 1) .. ":" .. (one.col + 1) .. " " .. tostring(code))
end
table.sort(out.findings)

-- The hover, in the floating window that a person sees.
local job = vim.fn.search("^job ", "w")
vim.api.nvim_win_set_cursor(0, { job, 6 })
vim.lsp.buf.hover()
local function float()
  for _, window in ipairs(vim.api.nvim_list_wins()) do
    if vim.api.nvim_win_get_config(window).relative ~= "" then return window end
  end
end
wait("the hover", function() return float() ~= nil end)
out.hover = table.concat(vim.api.nvim_buf_get_lines(vim.api.nvim_win_get_buf(float()), 0, -1, false), "\n")
vim.api.nvim_win_close(float(), true)

-- The first quick fix of the menu.
local comma = vim.fn.search("59,911", "w")
vim.api.nvim_win_set_cursor(0, { comma, 28 })
out.offered = { }
vim.ui.select = function(items, options, chosen)
  for _, item in ipairs(items) do
    table.insert(out.offered, options.format_item and options.format_item(item) or tostring(item))
  end
  chosen(items[1], 1)
end
vim.lsp.buf.code_action()
wait("the repair", function() return vim.api.nvim_buf_get_lines(buffer, comma - 1, comma, false)[1]:find("59.911", 1, true) ~= nil end)
out.line = vim.api.nvim_buf_get_lines(buffer, comma - 1, comma, false)[1]
wait("the finding to go", function() return not has("syntax/comma-number") end)
finish(nil)
