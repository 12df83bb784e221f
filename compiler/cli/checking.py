def run(x): return 0
