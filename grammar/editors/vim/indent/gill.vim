" Declarations stand in the first column, their lines two columns in, the drinks of a menu's section four.
if exists('b:did_indent')
  finish
endif
let b:did_indent = 1

setlocal indentexpr=GillIndent(v:lnum) indentkeys=o,O,!^F,0=drink,0=prep,0=ingredient,0=menu,0=prices nosmartindent nocindent autoindent
let b:undo_indent = 'setlocal indentexpr< indentkeys< smartindent< cindent< autoindent<'

if exists('*GillIndent')
  finish
endif

function! s:is_header(text) abort
  return a:text =~? '^\%(' . join(g:gill#words#declarations, '\|') . '\)\%(\s\|$\)'
endfunction

" The header above a line, and whether a section stands between them.
function! s:place_of(line) abort
  let section = 0
  for above in range(a:line - 1, 1, -1)
    let text = getline(above)
    if s:is_header(text)
      return [text, section]
    endif
    let section = section || text =~? '^\s\+section\%(\s\|$\)'
  endfor
  return ['', 0]
endfunction

function! GillIndent(line) abort
  let text = getline(a:line)
  " What stands in the first column and begins a declaration, or remarks on one, is meant there.
  if s:is_header(text) || text =~# '^#'
    return 0
  endif
  " Behind an empty line these begin a declaration wherever they are typed.
  if text =~? '^\s*\%(drink\|prep\|ingredient\|menu\|prices\)\%(\s\|$\)' && getline(a:line - 1) =~# '^\s*$'
    return 0
  endif
  let [header, in_section] = s:place_of(a:line)
  if header ==# ''
    return 0
  endif
  if text =~# '^\s\+[#|]'
    return indent(a:line)
  endif
  " Behind an empty line the next thing may be anything: the line above it tells.
  if text =~# '^\s*$' && getline(a:line - 1) =~# '^\s*$'
    return indent(prevnonblank(a:line - 1))
  endif
  let is_own = text =~? '^\s*\%(' . join(g:gill#words#lines_menu, '\|') . '\)\>'
  return in_section && header =~? '^menu\>' && !is_own ? 2 * shiftwidth() : shiftwidth()
endfunction
