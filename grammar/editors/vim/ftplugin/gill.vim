" How a .gill file is edited: comments, folds, declarations to jump to.
if exists('b:did_ftplugin')
  finish
endif
let b:did_ftplugin = 1

setlocal comments=:#,:\| commentstring=#\ %s
setlocal expandtab shiftwidth=2 softtabstop=2
setlocal foldmethod=syntax foldlevel=99
" The words of the declarations, for :isearch, [d and their like.
let &l:define = '^\c\%(' . join(g:gill#words#declarations, '\|') . '\)\>'
let &l:include = ''
" From one declaration to the next.
nnoremap <silent> <buffer> ]] :<C-u>call search('^[^ \t#<Bar>]', 'W')<CR>
nnoremap <silent> <buffer> [[ :<C-u>call search('^[^ \t#<Bar>]', 'bW')<CR>

let b:undo_ftplugin = 'setlocal comments< commentstring< expandtab< shiftwidth< softtabstop< foldmethod< foldlevel< define< include<'
      \ . '|silent! nunmap <buffer> ]]|silent! nunmap <buffer> [['
