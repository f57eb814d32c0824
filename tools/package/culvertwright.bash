# Completion of commands, options and files for bash.  Words come from the program's own help, so they cannot go stale.
_culvertwright() {
    local word=${COMP_WORDS[COMP_CWORD]} command=${COMP_WORDS[1]}
    COMPREPLY=()
    if [ "$COMP_CWORD" -eq 1 ]; then
        mapfile -t COMPREPLY < <(compgen -W "help $(culvertwright help | sed -nE 's/^  culvertwright ([a-z]+).*/\1/p')" -- "$word")
    elif [[ $word == -* ]]; then
        mapfile -t COMPREPLY < <(compgen -W "$(culvertwright "$command" --help 2>/dev/null | sed -nE 's/^  (--?[a-z-]+).*/\1/p')" -- "$word")
    elif [ "$command" = calc ] && [ "$COMP_CWORD" -eq 2 ]; then
        mapfile -t COMPREPLY < <(compgen -W "$(culvertwright calc | sed -nE 's/^  ([a-z][a-z-]*) .*/\1/p')" -- "$word")
    elif [ "$command" = calc ]; then
        compopt -o nospace
        mapfile -t COMPREPLY < <(compgen -S = -W "$(culvertwright calc "${COMP_WORDS[2]}" 2>/dev/null | awk '/^Inputs/ {on = 1; next} /^[A-Z]/ {on = 0} on && /^  [a-z]/ {print $1}')" -- "$word")
    else
        compopt -o filenames
        mapfile -t COMPREPLY < <(compgen -f -- "$word")
    fi
}
complete -F _culvertwright culvertwright
