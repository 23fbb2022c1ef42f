"""`footlight completion`: how to let the shell complete commands and options."""

import os
from pathlib import Path

import click
from click.shell_completion import get_completion_class

_SHELLS = ("bash", "zsh", "fish")
_SWITCH_ON = {
    "bash": 'add this line to ~/.bashrc:\n  eval "$(footlight completion bash --script)"',
    "zsh": 'add this line to ~/.zshrc, after compinit:\n  eval "$(footlight completion zsh --script)"',
    "fish": (
        "give this command once:\n"
        "  footlight completion fish --script > ~/.config/fish/completions/footlight.fish"
    ),
}


@click.command("completion")
@click.argument("shell", type=click.Choice(_SHELLS), required=False)
@click.option("--script", is_flag=True, help="Print the script itself.")
def command(shell: str | None, script: bool) -> None:
    """Say how to switch completion on for SHELL, or print its script.

    Without SHELL: the one that you are in. Works for bash (4.4 or newer), zsh and fish.

    \b
    Example:
      footlight completion zsh
      eval "$(footlight completion bash --script)"
    """
    shell = shell or Path(os.environ.get("SHELL", "bash")).name
    found = get_completion_class(shell)
    if found is None or shell not in _SHELLS:
        raise click.UsageError(f"no completion for '{shell}'; there is one for {', '.join(_SHELLS)}")
    if script:
        from footlight.cli.main import group

        click.echo(found(group, {}, "footlight", "_FOOTLIGHT_COMPLETE").source())
    else:
        click.echo(f"For {shell}, {_SWITCH_ON[shell]}\nThen open a new shell.")
