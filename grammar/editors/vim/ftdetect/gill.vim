" Files of bar specifications.
autocmd BufRead,BufNewFile *.gill setfiletype gill
