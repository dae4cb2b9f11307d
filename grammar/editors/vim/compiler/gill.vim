" :compiler gill, then :make checks the house in this folder, and the findings stand in the quickfix list.
if exists('current_compiler')
  finish
endif
let current_compiler = 'gill'

CompilerSet makeprg=gill\ check\ $*
CompilerSet errorformat=%f:%l:%c:\ %trror%m,%f:%l:%c:\ %tarning%m,%f:%l:%c:\ %tote%m,%-G%.%#
