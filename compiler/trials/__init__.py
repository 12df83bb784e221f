"""A changed plan, compiled again: what a loss or a delay does, what a plan hangs on, what small change would mend it.

Nothing here touches a file, except for a repair that the user asked to have written.
"""
