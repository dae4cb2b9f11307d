;;; gill-mode.el --- Bar specifications in Gill  -*- lexical-binding: t -*-

;; Package-Requires: ((emacs "26.1"))

;;; Commentary:
;; Colours, comments, indentation and the outline of .gill files.  With Eglot, `M-x eglot' starts `gill lsp'; to have it start by itself:
;;
;;   (require 'gill-mode)
;;   (add-hook 'gill-mode-hook 'eglot-ensure)

;;; Code:

(require 'gill-words)

(defgroup gill nil "Bar specifications." :group 'languages)

(defcustom gill-indent-offset 2 "How far the lines of a declaration are set in." :type 'integer)

(defun gill--any-of (words)
  "A regular expression for one of WORDS, a phrase with any white space in it."
  (concat "\\(?:" (mapconcat (lambda (word) (replace-regexp-in-string " " "[ \t]+" (regexp-quote word) t t)) words "\\|") "\\)"))

(defconst gill--header (concat "^\\(" (gill--any-of gill-words-declarations) "\\)\\(?:[ \t]\\|$\\)"))
(defconst gill--number
  (concat "[-−]?\\(?:[0-9]+[ \t]*[¼½¾⅐-⅞]\\|[0-9]+[ \t]+[0-9]+/[0-9]+\\|[0-9]+/[0-9]+\\|[¼½¾⅐-⅞]\\|[0-9]+\\(?:\\.[0-9]+\\)?\\|\\.[0-9]+\\)"))
(defconst gill--value
  (concat "\\(" gill--number "\\)\\(?:[ \t]*\\(" (gill--any-of gill-words-units) "\\(?:es\\|s\\)?\\.?\\|[A-Z]\\{3\\}\\)\\(?:[^[:alnum:]_/%]\\|$\\)\\)?"))

;;; Where a line stands

(defun gill--declaration ()
  "The word of the declaration that holds this line, or nil."
  (save-excursion
    (save-match-data
      (end-of-line)
      (when (re-search-backward "^[^ \t\n#|]" nil t)
        (let ((case-fold-search t))
          (and (looking-at gill--header) (downcase (match-string-no-properties 1))))))))

(defun gill--words-of-line (kind)
  "What may begin a line of a declaration of KIND, its steps aside."
  (concat "[ \t]+\\(" (gill--any-of (cdr (assoc kind gill-words-lines))) "\\)\\(?:[ \t:,]\\|$\\)"))

(defconst gill--line-words
  (mapcar (lambda (kind) (cons kind (gill--words-of-line kind))) gill-words-declarations))
(defconst gill--step (concat "[ \t]+\\(" (gill--any-of gill-words-steps) "\\)\\(?:[ \t:,]\\|$\\)"))

(defun gill--match-first-word (limit wanted)
  "Moves to the next line before LIMIT whose first word WANTED finds.
It is called with the declaration's word and gives a regular expression, or nil."
  (let (found)
    (while (and (not found) (< (point) limit) (re-search-forward "^[ \t]+[^ \t\n#|]" limit t))
      (let* ((kind (gill--declaration)) (words (and kind (funcall wanted kind))) (case-fold-search t))
        (beginning-of-line)
        (setq found (and words (looking-at words)))
        (if found (goto-char (match-end 1)) (forward-line 1))))
    found))

(defun gill--is-recipe (kind) (member kind '("drink" "prep")))

(defun gill--match-step (limit)
  "The next step before LIMIT."
  (gill--match-first-word limit (lambda (kind) (and (gill--is-recipe kind) gill--step))))

(defun gill--match-property (limit)
  "The next word before LIMIT that begins a line of its declaration."
  (gill--match-first-word limit (lambda (kind) (cdr (assoc kind gill--line-words)))))

(defun gill--match-value (limit)
  "The next number before LIMIT that is no part of a word, with its unit."
  (let (found)
    (while (and (not found) (let ((case-fold-search t)) (re-search-forward gill--value limit t)))
      (let ((before (char-before (match-beginning 0))) (end (match-end 0)))
        (if (or (and before (string-match-p "[[:alpha:]_]" (string before))) (save-excursion (goto-char (match-beginning 0)) (looking-at "-[^0-9.¼½¾]")))
            (goto-char (match-end 1))
          (setq found t)
          ;; The character that ends a unit may begin the next thing.
          (goto-char (or (match-end 2) (match-end 1) end)))))
    found))

;;; Colours

(defface gill-unit '((t :inherit font-lock-builtin-face)) "A unit.")
(defface gill-step '((t :inherit font-lock-function-name-face)) "A step.")
(defface gill-property '((t :inherit font-lock-variable-name-face)) "A word that begins a line.")
(defface gill-number '((t :inherit font-lock-constant-face)) "A number.")
(defface gill-name '((t :inherit font-lock-type-face)) "What a declaration declares.")

(defconst gill-font-lock-keywords
  `(("^[ \t]*\\(|.*\\)$" 1 'font-lock-string-face t)
    ("\\(?:^\\|[ \t]\\)\\(#.*\\)$" (1 'font-lock-comment-face))
    ("^[ \t]+colou?r[ \t]+\\(#[[:alnum:]]+\\)" (1 'font-lock-constant-face t))
    ("\"[^\"\n]*\"" . 'font-lock-string-face)
    ("\"[^\"\n]*$" . 'font-lock-warning-face)
    (,gill--header (1 'font-lock-keyword-face))
    ("^unit[ \t]+\\([^= \t\n][^=\n]*?\\)[ \t]*=" (1 'gill-name))
    (,(concat "^\\(" (gill--any-of (remove "unit" gill-words-declarations)) "\\)[ \t]+\\([^ \t\n#].*?\\)\\(?:[ \t]+\\(like\\)[ \t]+\\(.*?\\)\\)?[ \t]*\\(?:[ \t]#.*\\)?$")
     (2 'gill-name t) (3 'font-lock-keyword-face nil t) (4 'default nil t))
    (gill--match-step (1 'gill-step))
    (gill--match-property (1 'gill-property))
    ("\\_<[0-9]\\{4\\}-[0-9][0-9]-[0-9][0-9]\\_>\\|\\_<[0-9]+:[0-9]+[^ \t\n]*" . 'gill-number)
    ("\\_<\\(?:[0-9]+\\(?:,[0-9]+\\)+\\|[0-9]+-[0-9]+/[0-9]+\\)" . 'font-lock-warning-face)
    (gill--match-value (1 'gill-number) (2 'gill-unit nil t)))
  "Colours of a .gill file; the words are those of `gill-words'.")

;;; Indentation

(defun gill--in-section ()
  "True where a section of the menu stands above this line."
  (save-excursion
    (beginning-of-line)
    (and (re-search-backward "^\\(?:[^ \t\n#|]\\|[ \t]+section\\_>\\)" nil t) (looking-at "[ \t]"))))

(defun gill--indentation ()
  "The column in which this line should begin."
  (save-excursion
    (beginning-of-line)
    (let ((case-fold-search t) (kind (and (not (bobp)) (save-excursion (forward-line -1) (gill--declaration)))))
      (cond
       ((or (looking-at gill--header) (looking-at "#") (not kind)) 0)
       ;; Behind an empty line these begin a declaration wherever they are typed.
       ((and (looking-at "[ \t]*\\(?:drink\\|prep\\|ingredient\\|menu\\|prices\\)\\(?:[ \t]\\|$\\)") (save-excursion (forward-line -1) (looking-at "[ \t]*$"))) 0)
       ((looking-at "[ \t]+[#|]") (current-indentation))
       ((and (equal kind "menu") (gill--in-section) (not (looking-at (concat "[ \t]*" (substring (cdr (assoc "menu" gill--line-words)) (length "[ \t]+"))))))
        (* 2 gill-indent-offset))
       (t gill-indent-offset)))))

(defun gill-indent-line ()
  "Sets this line in as its place asks."
  (interactive)
  (let ((wanted (gill--indentation)))
    (if (<= (current-column) (current-indentation))
        (indent-line-to wanted)
      (save-excursion (indent-line-to wanted)))))

;;; The mode

(defconst gill-imenu-generic-expression
  (mapcar (lambda (kind) (list (capitalize kind) (concat "^" kind "[ \t]+\\(.*?\\)[ \t]*\\(?:[ \t]\\(?:like\\_>\\|#\\).*\\|=.*\\)?$") 1)) gill-words-declarations)
  "The outline: every declaration under its word.")

(defvar gill-mode-syntax-table
  (let ((table (make-syntax-table text-mode-syntax-table)))
    ;; A quote is closed on its line or not at all, and a # begins a comment behind white space alone: both are for the keywords to see.
    (modify-syntax-entry ?\" "." table)
    (modify-syntax-entry ?# "." table)
    table))

;;;###autoload
(define-derived-mode gill-mode prog-mode "Gill"
  "Bar specifications."
  (setq-local comment-start "# ")
  (setq-local comment-start-skip "#+[ \t]+")
  (setq-local comment-use-syntax nil)
  (setq-local indent-tabs-mode nil)
  (setq-local tab-width 2)
  (setq-local indent-line-function #'gill-indent-line)
  (setq-local font-lock-defaults '(gill-font-lock-keywords t t))
  (setq-local imenu-generic-expression gill-imenu-generic-expression)
  (setq-local imenu-case-fold-search t)
  (setq-local outline-regexp (concat (gill--any-of gill-words-declarations) "\\_>"))
  (setq-local beginning-of-defun-function (lambda (&optional count) (re-search-backward gill--header nil t (or count 1))))
  (setq-local end-of-defun-function (lambda () (forward-line 1) (if (re-search-forward "^[^ \t\n#|]" nil t) (beginning-of-line) (goto-char (point-max)))))
  (setq-local compile-command "gill check"))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.gill\\'" . gill-mode))

(with-eval-after-load 'eglot
  (defvar eglot-server-programs)
  (add-to-list 'eglot-server-programs '(gill-mode . ("gill" "lsp"))))

(provide 'gill-mode)
;;; gill-mode.el ends here
