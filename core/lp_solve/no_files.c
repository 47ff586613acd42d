/* Stands in for the solver's readers and writers of model files, which its table of functions names: the core
   reads and writes no files, and leaving them out saves the page their weight. All say "failed". */
#include "lp_lib.h"

MYBOOL MPS_readfile(lprec **lp, char *name, int kind, int verbose) { return FALSE; }
MYBOOL __WINAPI MPS_readhandle(lprec **lp, FILE *file, int kind, int verbose) { return FALSE; }
MYBOOL __WINAPI MPS_readex(lprec **lp, void *handle, read_modeldata_func read, int kind, int verbose) {
  return FALSE;
}
MYBOOL MPS_writefile(lprec *lp, int kind, char *name) { return FALSE; }
MYBOOL MPS_writehandle(lprec *lp, int kind, FILE *file) { return FALSE; }
MYBOOL MPS_readBAS(lprec *lp, int kind, char *name, char *info) { return FALSE; }
MYBOOL MPS_writeBAS(lprec *lp, int kind, char *name) { return FALSE; }
MYBOOL LP_writefile(lprec *lp, char *name) { return FALSE; }
MYBOOL LP_writehandle(lprec *lp, FILE *file) { return FALSE; }
MYBOOL __WINAPI read_params(lprec *lp, char *name, char *options) { return FALSE; }
MYBOOL __WINAPI write_params(lprec *lp, char *name, char *options) { return FALSE; }
int mm_write_banner(FILE *file, char code[4]) { return -1; }
int mm_write_mtx_crd_size(FILE *file, int rows, int columns, int entries) { return -1; }
