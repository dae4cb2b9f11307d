" Colours of a .gill file. The words are the program's own (autoload/gill/words.vim); names are what is left.
if exists('b:current_syntax')
  finish
endif

" One of the words, a phrase with any white space in it, the longest first.
function! s:any_of(words) abort
  return '\%(' . join(map(copy(a:words), {_, word -> substitute(escape(word, '\/.*$^~[]'), ' ', '\\s\\+', 'g')}), '\|') . '\)'
endfunction

syntax case ignore

syntax match gillQuote /"[^"]*"/ contained
syntax match gillUnclosed /"[^"]*$/ contained
syntax match gillOperator /->\|→\|\.\.\|…\|±\|+\/\?-\|=/ contained
syntax match gillWord /[^[:blank:][:digit:]"#,=:|.½¼¾⅐-⅞±%+→…-][^[:blank:]",=:|]*/ contained
syntax match gillNumber /[-−]\?\%(\d\+\s*[¼½¾⅐-⅞]\|\d\+\s\+\d\+\/\d\+\|\d\+\/\d\+\|[¼½¾⅐-⅞]\|\d\+\%(\.\d\+\)\?\|\.\d\+\)/ contained nextgroup=gillUnit,gillCurrency skipwhite
syntax match gillSlip /\d\+\%(,\d\+\)\+\%(\.\d\+\)\?\|\d\+-\d\+\/\d\+/ contained
syntax match gillNumber /\d\{4}-\d\d-\d\d\d\@!\|\d\+:\d\+\S*/ contained
execute 'syntax match gillUnit /\%#=1' . s:any_of(g:gill#words#units) . '\%(es\|s\)\?\.\?\%([[:alnum:]_\/%]\)\@!/ contained'
syntax match gillCurrency /\C[A-Z]\{3}\k\@!/ contained
syntax match gillComment /\%(^\|\s\)\@1<=#.*/ contains=@Spell
syntax match gillText /^\s*\zs|.*/ contains=@Spell
syntax match gillColour /^\s\+colou\?r\s\+\zs#\k\+/ contained
syntax cluster gillLine contains=gillQuote,gillUnclosed,gillOperator,gillWord,gillNumber,gillSlip,gillComment,gillText,gillColour
execute 'syntax match gillStep /\%#=1^\s\+\zs' . s:any_of(g:gill#words#steps) . '\ze\%([[:blank:]:,]\|$\)/ contained'

syntax match gillName /\S.*/ contained contains=gillLike,gillComment
syntax match gillLike /\s\zslike\ze\%(\s\|$\)/ contained nextgroup=gillParent skipwhite
syntax match gillParent /[^#[:blank:]]\%(\%(\s#\)\@!.\)*/ contained
syntax match gillUnitName /[^=[:blank:]][^=]*/ contained

" A heading that the language does not have: its lines are coloured all the same.
syntax region gillOther start=/^[^[:blank:]#|]/ end=/^\ze[^[:blank:]#|]/ keepend transparent contains=@gillLine
for s:kind in g:gill#words#declarations
  " What its lines may begin with; in a recipe also the steps.
  execute 'syntax match gillProperty_' . s:kind . ' /\%#=1^\s\+\zs' . s:any_of(g:gill#words#lines_{s:kind}) . '\ze\%([[:blank:]:,]\|$\)/ contained'
  execute 'highlight default link gillProperty_' . s:kind . ' gillProperty'
  let s:name = s:kind ==# 'unit' ? 'gillUnitName' : 'gillName'
  execute 'syntax match gillKeyword_' . s:kind . ' /^' . s:kind . '\ze\%(\s\|$\)/ contained nextgroup=' . s:name . ' skipwhite'
  execute 'highlight default link gillKeyword_' . s:kind . ' gillKeyword'
  let s:steps = s:kind ==# 'drink' || s:kind ==# 'prep' ? ',gillStep' : ''
  execute 'syntax region gillDeclaration start=/^' . s:kind . '\ze\%(\s\|$\)/ end=/^\ze[^[:blank:]#|]/ keepend fold transparent contains=@gillLine,gillKeyword_' . s:kind . ',gillProperty_' . s:kind . s:steps
endfor
unlet s:kind s:name s:steps

" No declaration reaches beyond the next line that begins in the first column.
syntax sync match gillHeader grouphere NONE /^[^[:blank:]#|]/
syntax sync minlines=20

highlight default link gillKeyword Statement
highlight default link gillName Title
highlight default link gillUnitName Title
highlight default link gillLike Keyword
highlight default link gillParent Identifier
highlight default link gillProperty Type
highlight default link gillStep Function
highlight default link gillNumber Number
highlight default link gillUnit Special
highlight default link gillCurrency Special
highlight default link gillColour Constant
highlight default link gillQuote String
highlight default link gillText String
highlight default link gillComment Comment
highlight default link gillOperator Operator
highlight default link gillSlip Error
highlight default link gillUnclosed Error

let b:current_syntax = 'gill'
